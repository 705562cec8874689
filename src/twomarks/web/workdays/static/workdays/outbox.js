// Ticks are kept on the device first: rows under an id made here, with a number of this device. A row counts as
// sent only after the server has answered that it is kept. Nothing here is ever deleted by sending.
const NAME = "twomarks-card";

export function open() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("ticks", { keyPath: "id" });
      request.result.createObjectStore("device", { keyPath: "name" });
      request.result.createObjectStore("timers", { keyPath: "key" });
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

const finished = (transaction) =>
  new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onerror = transaction.onabort = () => reject(transaction.error);
  });

const answer = (request) =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

// On plain http over a home network crypto.randomUUID is missing, getRandomValues is not.
export function newId() {
  if (crypto.randomUUID) return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 15) | 64;
  bytes[8] = (bytes[8] & 63) | 128;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

// A device counts the ticks of each card from 1 on. The number is raised and the tick written in one transaction, so that no two ticks of a device share a number.
export async function keep(db, tick) {
  const transaction = db.transaction(["ticks", "device"], "readwrite", { durability: "strict" });
  const devices = transaction.objectStore("device");
  const ticks = transaction.objectStore("ticks");
  const now = new Date();
  const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
  const row = { ...tick, id: newId(), day, at: now.toISOString(), sent: 0 };
  const found = devices.get(tick.card);
  found.onsuccess = () => {
    const device = found.result ?? { name: tick.card, id: newId(), last: 0 };
    device.last += 1;
    row.device = device.id;
    row.device_sequence = device.last;
    devices.put(device);
    ticks.put(row);
  };
  await finished(transaction);
  return row;
}

export async function kept(db) {
  const rows = await answer(db.transaction("ticks").objectStore("ticks").getAll());
  return rows.sort((a, b) => a.at.localeCompare(b.at) || a.device_sequence - b.device_sequence);
}

async function mark(db, changes) {
  const transaction = db.transaction("ticks", "readwrite", { durability: "strict" });
  const store = transaction.objectStore("ticks");
  for (const [id, change] of changes) {
    const found = store.get(id);
    found.onsuccess = () => {
      if (found.result) store.put({ ...found.result, ...change });
    };
  }
  await finished(transaction);
}

// A refused tick leaves a gap in the numbers, and the server waits for gaps: what is not sent yet starts a new count.
async function renumber(db, card) {
  const transaction = db.transaction(["ticks", "device"], "readwrite", { durability: "strict" });
  const store = transaction.objectStore("ticks");
  const all = store.getAll();
  all.onsuccess = () => {
    const waiting = all.result.filter((tick) => tick.card === card && !tick.sent && !tick.refused);
    waiting.sort((a, b) => a.at.localeCompare(b.at) || a.device_sequence - b.device_sequence);
    const device = { name: card, id: newId(), last: waiting.length };
    waiting.forEach((tick, index) => store.put({ ...tick, device: device.id, device_sequence: index + 1 }));
    transaction.objectStore("device").put(device);
  };
  await finished(transaction);
}

export async function timer(db, key) {
  return answer(db.transaction("timers").objectStore("timers").get(key));
}

export async function setTimer(db, key, row) {
  const transaction = db.transaction("timers", "readwrite", { durability: "strict" });
  const store = transaction.objectStore("timers");
  if (row) store.put({ key, ...row });
  else store.delete(key);
  await finished(transaction);
}

const token = () => (document.cookie.match(/(?:^|; )csrftoken=([^;]+)/) || [])[1] || "";

const post = (url, ticks) =>
  fetch(url, {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-CSRFToken": token() },
    body: JSON.stringify({ ticks: ticks.map(({ sent, refused, ...tick }) => tick) }),
  });

const LOT = 200;

export async function send(db, url, card) {
  const go = async () => {
    const waiting = (await kept(db)).filter((tick) => tick.card === card && !tick.sent && !tick.refused).slice(0, LOT);
    if (!waiting.length) return 0;
    let response = await post(url, waiting);
    if (response.status === 403) {
      // A page from the cache may have lost its cookie: ask for a new one, once.
      await fetch(url, { cache: "no-store" });
      response = await post(url, waiting);
    }
    if (!response.ok) throw new Error(`the server answered ${response.status}`);
    const said = await response.json();
    await mark(db, [
      ...said.kept.map((id) => [id, { sent: 1 }]),
      ...said.refused.map((refusal) => [refusal.id, { refused: refusal.words }]),
    ]);
    if (said.refused.length) await renumber(db, card);
    return said.kept.length;
  };
  return navigator.locks ? navigator.locks.request("twomarks-send", go) : go();
}
