// Fifty people at one server: node tests/load/load.mjs [--store PLACE] [CLIENTS] [SECONDS]. One after the other signs in, then each
// works without a pause over a connection of its own: mostly looks, sometimes checks or saves. Prints what docs/performance-server.md holds.
// Not among the tests: it measures, it does not judge.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import http from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const words = process.argv.slice(2);
const at = words.indexOf('--store');
const work = mkdtempSync(join(tmpdir(), 'lobewise-load-'));
const place = at >= 0 ? words.splice(at, 2)[1] : join(work, 'load.lobewise');
const clients = Number(words[0] ?? 50);
const seconds = Number(words[1] ?? 20);
const binary = process.env.LOBEWISE ?? new URL('../../build/release/bin/lobewise', import.meta.url).pathname;
const password = 'a long pass phrase';

const store = (...more) => execFileSync(binary, ['store', '--store', place, ...more], { input: `${password}\n` });
store('init');
const names = Array.from({ length: clients }, (_, index) => `person${index}`);
for (const name of names) store('person', name, '--role', 'engineer');
const server = spawn(binary, ['workspace', '--port', '0', '--no-browser', '--store', place], { stdio: ['ignore', 'pipe', 'inherit'] });
const url = await new Promise((resolve) => {
  let out = '';
  server.stdout.on('data', (data) => {
    out += data;
    const found = /http:\/\/127\.0\.0\.1:\d+/.exec(out);
    if (found) resolve(found[0]);
  });
});

const times = new Map();
const statuses = new Map();
function ask(agent, kind, path, body, headers = {}) {
  const start = performance.now();
  return new Promise((resolve, reject) => {
    const text = body === undefined ? undefined : JSON.stringify(body);
    const request = http.request(url + path, {
      agent,
      method: text === undefined ? 'GET' : 'POST',
      headers: { ...headers, ...(text !== undefined && { 'Content-Type': 'application/json', 'Content-Length': Buffer.byteLength(text) }) },
    });
    request.on('response', (response) => {
      const parts = [];
      response.on('data', (part) => parts.push(part));
      response.on('end', () => {
        times.set(kind, [...(times.get(kind) ?? []), performance.now() - start]);
        const key = `${kind} ${response.statusCode}`;
        statuses.set(key, (statuses.get(key) ?? 0) + 1);
        resolve({ status: response.statusCode, headers: response.headers, body: Buffer.concat(parts).toString() });
      });
    });
    request.on('error', reject);
    request.end(text);
  });
}

const enquiry = { title: 'Load', machine: { measured: { measured_torque: '40 N·m', speed: '57 rpm' } } };
let broken = 0;
const people = [];
for (const name of names) {
  const agent = new http.Agent({ keepAlive: true, maxSockets: 1 });
  const signed = await ask(agent, 'sign in', '/store/sign-in', { name, password });
  const headers = { Cookie: signed.headers['set-cookie'][0].split(';')[0], 'X-Lobewise-Token': JSON.parse(signed.body).token };
  people.push({ agent, headers });
}
await ask(people[0].agent, 'save', '/store', { call: 'save', input: { enquiry } }, people[0].headers);
const until = performance.now() + 1000 * seconds;
async function atWork({ agent, headers }, index) {
  try {
    for (let turn = index; performance.now() < until; ++turn) {
      if (turn % 20 === 0) await ask(agent, 'save', '/store', { call: 'save', input: { enquiry } }, headers);
      else if (turn % 10 === 5) await ask(agent, 'check an enquiry', '/api', { call: 'check', input: { enquiry } }, headers);
      else if (turn % 4 === 1) await ask(agent, 'list', '/store', { call: 'list', input: { text: 'load', limit: 30 } }, headers);
      else if (turn % 4 === 2) await ask(agent, 'open', '/store', { call: 'open', input: { number: 1 } }, headers);
      else await ask(agent, 'page', '/', undefined, headers);
    }
  } catch (error) {
    ++broken;
    console.error(error.message);
  }
  agent.destroy();
}
await Promise.all(people.map(atWork));
const memory = /VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${server.pid}/status`, 'utf8'))[1];
server.kill();

const all = [...times.values()].reduce((sum, list) => sum + list.length, 0);
console.log(`${clients} clients, ${seconds} s: ${all} answers, ${broken} broken connections, server's memory at most ${Math.round(memory / 1024)} MiB`);
console.log('| request | answers | median ms | 95 % ms | slowest ms |\n|---|---|---|---|---|');
for (const [kind, list] of times) {
  list.sort((a, b) => a - b);
  const share = (part) => list[Math.min(list.length - 1, Math.floor(part * list.length))].toFixed(list[0] < 10 ? 1 : 0);
  console.log(`| ${kind} | ${list.length} | ${share(0.5)} | ${share(0.95)} | ${share(1)} |`);
}
console.log([...statuses].map(([key, count]) => `${key}: ${count}`).join(', '));
rmSync(work, { recursive: true, force: true });
