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

export async function fragmentOf(plan: string): Promise<string> {
  const packed = new Blob([plan]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  return fragmentOfPacked(new Uint8Array(await new Response(packed).arrayBuffer()));
}

/** A link's data may be anything, so no more is unpacked than a plan may have. */
const mostUnpacked = 1 << 20;

/** The plan in a fragment; undefined when it holds none or is damaged. */
export async function planIn(fragment: string): Promise<string | undefined> {
  const found = /^#plan=([A-Za-z0-9_-]+)$/.exec(fragment);
  if (!found) return undefined;
  try {
    const packed = new Blob([fromBase64url(found[1]!)]).stream();
    const reader = packed.pipeThrough(new DecompressionStream("deflate-raw")).getReader();
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
