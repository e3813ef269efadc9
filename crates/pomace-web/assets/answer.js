// What the server answers: JSON; or a line of JSON that tells names and lengths of parts of the page, and
// behind it the parts as they are.
export async function read(answer) {
  if (answer.headers.get("content-type")?.startsWith("application/json")) return answer.json();
  const bytes = new Uint8Array(await answer.arrayBuffer());
  const words = new TextDecoder();
  let at = bytes.indexOf(10) + 1;
  const told = JSON.parse(words.decode(bytes.subarray(0, at)));
  told.parts = Object.fromEntries(told.parts.map(([name, length]) => [name, words.decode(bytes.subarray(at, at += length))]));
  return told;
}
