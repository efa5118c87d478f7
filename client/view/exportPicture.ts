/** The sheet as a file: an SVG that carries its own colours, or the same as PNG. */

/** The part of the page's style that a drawing needs on its own. */
const PROPERTIES = [
  "fill",
  "fill-opacity",
  "stroke",
  "stroke-width",
  "stroke-dasharray",
  "stroke-linejoin",
  "font-family",
  "font-size",
  "font-weight",
  "text-anchor",
  "opacity",
  "display",
];
/** Pixels of the PNG for one of the page. */
const SHARPNESS = 2;

/** Base64 of the file. */
export async function picture(kind: "svg" | "png"): Promise<string> {
  const { text, width, height } = standalone();
  if (kind === "svg") return base64(new TextEncoder().encode(text));
  const image = new Image();
  image.src = `data:image/svg+xml;base64,${base64(new TextEncoder().encode(text))}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = width * SHARPNESS;
  canvas.height = height * SHARPNESS;
  canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
  return canvas.toDataURL("image/png").replace(/^[^,]*,/, "");
}

function standalone() {
  const sheet = document.querySelector("svg.sheet") as SVGSVGElement;
  const copy = sheet.cloneNode(true) as SVGSVGElement;
  const from = [sheet, ...sheet.querySelectorAll("*")];
  const to = [copy, ...copy.querySelectorAll("*")];
  from.forEach((element, i) => {
    const style = getComputedStyle(element);
    for (const property of PROPERTIES) to[i]?.setAttribute(property, style.getPropertyValue(property));
    to[i]?.removeAttribute("class");
  });
  const [width, height] = [sheet.width.baseVal.value, sheet.height.baseVal.value];
  const paper = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  paper.setAttribute("width", "100%");
  paper.setAttribute("height", "100%");
  paper.setAttribute("fill", getComputedStyle(document.body).backgroundColor);
  copy.insertBefore(paper, copy.firstChild);
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  return { text: new XMLSerializer().serializeToString(copy), width, height };
}

function base64(bytes: Uint8Array): string {
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
}
