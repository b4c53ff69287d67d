// A plan in a link. The data stand behind the "#", which a browser never sends to anybody.

function base64url(bytes: Uint8Array): string {
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

const fromBase64url = (text: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (c) => c.charCodeAt(0));

/** Of a plan's text that was packed by DEFLATE without a header (RFC 1951). */
export const fragmentOfPacked = (packed: Uint8Array): string => "#plan=" + base64url(packed);

async function packed(text: BlobPart): Promise<Uint8Array> {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}
/** @param accepted the acceptances beside the plan, if any. */
export async function fragmentOf(plan: BlobPart, accepted?: BlobPart): Promise<string> {
  return fragmentOfPacked(await packed(plan)) + (accepted === undefined ? "" : "&accepted=" + base64url(await packed(accepted)));
}

/** A link's data may be anything, so no more is unpacked than a plan may have. */
const mostUnpacked = 1 << 20;

const form = /^#plan=([A-Za-z0-9_-]+)(?:&accepted=([A-Za-z0-9_-]+))?$/;

/** The plan in a fragment; undefined when it holds none or is damaged. */
export const planIn = (fragment: string): Promise<string | undefined> => unpacked(form.exec(fragment)?.[1]);
/** The acceptances that came with it. */
export const acceptedIn = (fragment: string): Promise<string | undefined> => unpacked(form.exec(fragment)?.[2]);

async function unpacked(text: string | undefined): Promise<string | undefined> {
  if (text === undefined) return undefined;
  try {
    const stream = new Blob([fromBase64url(text)]).stream();
    const reader = stream.pipeThrough(new DecompressionStream("deflate-raw")).getReader();
    const pieces: BlobPart[] = [];
    for (let size = 0; ; ) {
      const { done, value } = await reader.read();
      if (done) break;
      size += value.length;
      if (size > mostUnpacked) return undefined;
      pieces.push(value as BlobPart);
    }
    return await new Blob(pieces).text();
  } catch {
    return undefined;
  }
}
