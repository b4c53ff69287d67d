// What every page has around it.

import { Html, html } from "./html";

/** Nothing but the site's own files; no inline script or style; no page may be sent anywhere. */
export const policy = [
  "default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "style-src 'self'", "img-src 'self' blob:",
  "connect-src 'self'", "manifest-src 'self'", "worker-src 'self'", "base-uri 'none'", "form-action 'none'",
  "require-trusted-types-for 'script'", "trusted-types starter-plan",
].join("; ");

const places: [string, string][] = [
  ["check.html", "Check a plan"], ["stove.html", "At the stove"], ["mentor.html", "For mentors"],
  ["lessons/index.html", "Lessons"],
  ["rules/index.html", "Rules"], ["process.html", "The process"], ["about.html", "About"],
];

export interface Page {
  /** "rules/glass-shock.html" */
  path: string;
  title: string;
  description: string;
  body: Html;
  scripts?: string[];
}

export function pageText(page: Page): string {
  const up = "../".repeat(page.path.split("/").length - 1);
  const current = (path: string): Html => (path === page.path ? html` aria-current="page"` : html``);
  return html`<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="referrer" content="no-referrer">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${page.title} · starter-plan</title>
<meta name="description" content="${page.description}">
<link rel="icon" href="${up}icon.svg" type="image/svg+xml">
<link rel="manifest" href="${up}site.webmanifest">
<link rel="stylesheet" href="${up}style.css">
${(page.scripts ?? ["common"]).map((name) => html`<script defer src="${up}script/${name}.js"></script>
`)}</head>
<body>
<a class="skip" href="#main">To the page itself</a>
<header class="top">
<a class="name" href="${up}index.html">starter-plan</a>
<nav aria-label="Site"><ul>
${places.map(([path, name]) => html`<li><a href="${up}${path}"${current(path)}>${name}</a></li>
`)}</ul></nav>
</header>
<main id="main" tabindex="-1">
<p id="trouble" class="trouble" role="alert" hidden></p>
${page.body}
</main>
<footer>
<p>Boiling wort, glass, sealed vessels and gas can hurt: read the <a href="${up}about.html#cautions">cautions</a>. Product labels, local codes and licensed practice come first.</p>
<p>Nothing that you type leaves this page. <a href="${up}about.html">About</a> · <a href="${up}licences.html">Licences</a></p>
</footer>
</body>
</html>
`.text;
}
