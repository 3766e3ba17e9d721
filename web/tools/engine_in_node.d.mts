export function loadEngine(): Promise<(call: string, input?: unknown) => Record<string, unknown>>;
