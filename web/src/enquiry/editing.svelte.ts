// Which value is being edited, and where on the page it stands. One editor serves every value.
export class Editing {
  path = $state<string>();
  anchor = $state.raw<HTMLElement>();

  open(path: string, anchor: HTMLElement): void {
    this.path = path;
    this.anchor = anchor;
  }
  close(): void {
    this.path = undefined;
  }
}
