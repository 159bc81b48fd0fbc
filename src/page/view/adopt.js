// Pages of the program taken into this one: what is copied is text and known elements, so that nothing in them acts.
const TAGS = new Set(('section div p span b strong em i small ul ol li dl dt dd table thead tbody tr th td caption h1 h2 h3 h4 figure figcaption bdi header sup sub br ' +
  'svg g path rect line circle ellipse polygon polyline text tspan defs clippath use title desc symbol').split(' '));
const NAMES = new Set(('class colspan rowspan scope role aria-label tabindex data-kind data-key viewbox d x y x1 y1 x2 y2 cx cy r rx ry width height points transform fill stroke stroke-width stroke-dasharray ' +
  'stroke-linecap stroke-linejoin fill-rule clip-path opacity fill-opacity stroke-opacity font-size font-family font-weight font-style text-anchor dy dx preserveaspectratio href xlink:href id').split(' '));

export function parsePage(html) {
  return new DOMParser().parseFromString(html, 'text/html');
}

/* A copy of the node for this document, but for those left out (a Set); null for what is not known. */
export function adopted(node, without) {
  if (without?.has(node)) return null;
  if (node.nodeType === Node.TEXT_NODE) return document.createTextNode(node.data);
  if (node.nodeType !== Node.ELEMENT_NODE || !TAGS.has(node.localName.toLowerCase())) return null;
  const copy = document.createElementNS(node.namespaceURI, node.localName);
  for (const {name, value} of node.attributes) {
    const low = name.toLowerCase();
    if (!NAMES.has(low) || (low === 'id' && node.namespaceURI.endsWith('xhtml'))) continue;
    if (/href$/.test(low) && !value.startsWith('#')) continue;
    copy.setAttribute(name === 'xlink:href' ? 'href' : name, value);
  }
  for (const child of node.childNodes) {
    const taken = adopted(child, without);
    if (taken) copy.append(taken);
  }
  return copy;
}
