// The SHA-256 of a picture (FIPS 180-4). The platform has its own only where the page came through a
// trusted connection; elsewhere this one is used, which gives the same.
const ROOTS = primes(64).map((each) => fraction(Math.cbrt(each)));
const BEGIN = primes(8).map((each) => fraction(Math.sqrt(each)));
const BLOCK = 64;

function primes(many) {
  const found = [];
  for (let at = 2; found.length < many; at += 1) if (found.every((each) => at % each)) found.push(at);
  return found;
}

function fraction(root) {
  return Math.floor((root - Math.floor(root)) * 2 ** 32) >>> 0;
}

const turned = (word, by) => (word >>> by) | (word << (32 - by));

function round(state, view, at, words) {
  for (let n = 0; n < 16; n += 1) words[n] = view.getUint32(at + 4 * n);
  for (let n = 16; n < 64; n += 1) {
    const a = words[n - 15], b = words[n - 2];
    words[n] = (words[n - 16] + (turned(a, 7) ^ turned(a, 18) ^ (a >>> 3)) + words[n - 7] + (turned(b, 17) ^ turned(b, 19) ^ (b >>> 10))) | 0;
  }
  let [a, b, c, d, e, f, g, h] = state;
  for (let n = 0; n < 64; n += 1) {
    const one = (h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + ROOTS[n] + words[n]) | 0;
    const two = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((each, n) => { state[n] = (state[n] + each) | 0; });
}

// ArrayBuffer → 64 digits 0-9 and a-f.
export function ownDigest(buffer) {
  const bytes = new Uint8Array(buffer), state = [...BEGIN], words = new Int32Array(64);
  const whole = Math.floor(bytes.length / BLOCK) * BLOCK;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  for (let at = 0; at < whole; at += BLOCK) round(state, view, at, words);
  const rest = bytes.length - whole, tail = new Uint8Array(rest < 56 ? BLOCK : 2 * BLOCK);
  tail.set(bytes.subarray(whole));
  tail[rest] = 0x80;
  const end = new DataView(tail.buffer);
  end.setUint32(tail.length - 8, Math.floor(bytes.length / 2 ** 29));
  end.setUint32(tail.length - 4, (bytes.length << 3) >>> 0);
  for (let at = 0; at < tail.length; at += BLOCK) round(state, end, at, words);
  return state.map((each) => (each >>> 0).toString(16).padStart(8, "0")).join("");
}

export async function digestOf(buffer) {
  if (!globalThis.crypto?.subtle) return ownDigest(buffer);
  const found = new Uint8Array(await crypto.subtle.digest("SHA-256", buffer));
  return [...found].map((each) => each.toString(16).padStart(2, "0")).join("");
}
