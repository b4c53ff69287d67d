// Serves build/site on loopback, to this machine alone.
//
//     node site/serve.mjs [PORT]

import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { createServer } from "node:http";
import { dirname, extname, join, normalize } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const types = {
  ".html": "text/html; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml", ".wasm": "application/wasm", ".webmanifest": "application/manifest+json",
};

/** The site in `folder`; port 0 is any free one. */
export async function serve(folder, port) {
  const server = createServer(async (request, response) => {
    try {
      const path = normalize(decodeURIComponent(new URL(request.url, "http://localhost").pathname));
      const file = join(folder, path.endsWith("/") ? `${path}index.html` : path);
      if (!file.startsWith(folder) || !(await stat(file)).isFile()) throw new Error("no such page");
      response.writeHead(200, { "content-type": types[extname(file)] ?? "application/octet-stream", "cache-control": "no-cache" });
      createReadStream(file).pipe(response);
    } catch {
      response.writeHead(404, { "content-type": "text/plain; charset=utf-8" }).end("There is no such page.\n");
    }
  });
  await new Promise((done, failed) => server.once("error", failed).listen(port, "127.0.0.1", done));
  return server;
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const folder = join(dirname(dirname(fileURLToPath(import.meta.url))), "build", "site");
  const server = await serve(folder, Number(process.argv[2] ?? 8080));
  console.log(`The site is at http://localhost:${server.address().port}/ (Ctrl-C ends it).`);
}
