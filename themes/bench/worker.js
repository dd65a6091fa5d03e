/* Keeps the site for reading without a network. What is kept is given first; the network is asked for the rest.
 *
 * A folder is the site's own ("") or a device's. The site's own is kept when this is installed, a device's as a whole once
 * a page of it is opened. A version is made of a folder's contents, so only folders that changed are fetched again.
 */
"use strict";

const FOLDERS = /* folders */ {};
const ROOT = new URL("./", self.location.href).href;
const OWN = `partway ${ROOT} `;
/** Of a photo one file is kept; it stands in for its other formats and sizes. */
const SIZE = /(?<=\.jpe?g)\.\d+\.(?:avif|webp|jpg)$/i;
const cacheOf = (folder) => `${OWN}${folder}@${FOLDERS[folder].version}`;
const folderOf = (key) => key.slice(OWN.length, key.lastIndexOf("@"));
/** The folders that an address may be in, the innermost first: a device's photos, a device of a language, a device or a
 * language, the site's own.
 */
const foldersFor = (address) => {
  const steps = address.slice(ROOT.length).split("/").map((step) => {
    try {
      return decodeURIComponent(step);
    } catch {
      return step;
    }
  });
  return [steps.slice(0, 2).join("/"), steps[0], ""].filter((folder) => Object.hasOwn(FOLDERS, folder));
};

/** All files of a folder, or none of them. A redirected answer is made anew: a browser refuses it for a page. */
async function keep(folder) {
  const name = cacheOf(folder);
  const cache = await caches.open(name);
  const base = new URL(folder ? `${folder}/` : "", ROOT);
  try {
    await Promise.all(
      FOLDERS[folder].files.map(async (file) => {
        const address = new URL(file.split("/").map(encodeURIComponent).join("/"), base).href;
        if (await cache.match(address)) return;
        const answer = await fetch(address, { cache: "no-cache" });
        if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
        const whole = answer.redirected ? new Response(await answer.blob(), { headers: answer.headers }) : answer;
        await cache.put(address, whole);
      }),
    );
  } catch (error) {
    await caches.delete(name);
    throw error;
  }
}

async function ownKeys() {
  return (await caches.keys()).filter((key) => key.startsWith(OWN));
}

self.addEventListener("install", (event) => {
  const known = async () => {
    const earlier = new Set((await ownKeys()).map(folderOf));
    await keep("");
    for (const folder of earlier) if (folder && FOLDERS[folder]) await keep(folder);
    await self.skipWaiting();
  };
  event.waitUntil(known());
});

self.addEventListener("activate", (event) => {
  const current = new Set(Object.keys(FOLDERS).map(cacheOf));
  const clear = async () => {
    for (const key of await ownKeys()) if (!current.has(key)) await caches.delete(key);
    await self.clients.claim();
  };
  event.waitUntil(clear());
});

/** A page says that it is read: its device is kept, and the page is told once that is done. */
self.addEventListener("message", (event) => {
  const address = String(event.data);
  if (!address.startsWith(ROOT)) return;
  const folder = foldersFor(address)[0];
  if (!folder) return;
  const told = event.source;
  const all = [folder, ...(FOLDERS[folder].with || [])];
  event.waitUntil(Promise.all(all.map(keep)).then(() => told && told.postMessage("kept"), () => undefined));
});

self.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  if (event.request.method !== "GET" || !address.href.startsWith(ROOT)) return;
  address.hash = "";
  address.search = "";
  if (address.pathname.endsWith("/")) address.pathname += "index.html";
  const current = async () => {
    for (const folder of foldersFor(address.href)) {
      if (!(await caches.has(cacheOf(folder)))) continue;
      const cache = await caches.open(cacheOf(folder));
      const found = (await cache.match(address.href)) || (await cache.match(address.href.replace(SIZE, "")));
      if (found) return found;
    }
    try {
      return await fetch(event.request);
    } catch (error) {
      /* A page is led to by its own address, for the links in it are read from there. */
      if (event.request.mode !== "navigate") throw error;
      return Response.redirect(new URL("offline.html", ROOT).href);
    }
  };
  event.respondWith(current());
});
