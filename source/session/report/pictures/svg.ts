/** A shape as text; numbers are pixels of the picture's own grid. */
export type Shape = string;

export function escapedMarkup(text: string): string {
	return text
		.replaceAll('&', '&amp;')
		.replaceAll('<', '&lt;')
		.replaceAll('>', '&gt;')
		.replaceAll('"', '&quot;')
		.replaceAll("'", '&#39;');
}

/** A whole picture with a title for those who do not see it. */
export function picture(
	{width, height, title}: {readonly width: number; readonly height: number; readonly title: string},
	shapes: readonly Shape[],
): string {
	const head = `<svg viewBox="0 0 ${width} ${height}" role="img" xmlns="http://www.w3.org/2000/svg">`;
	return `${head}<title>${escapedMarkup(title)}</title>${shapes.join('')}</svg>`;
}

export function line(from: readonly [number, number], to: readonly [number, number], as: string): Shape {
	return `<line class="${as}" x1="${at(from[0])}" y1="${at(from[1])}" x2="${at(to[0])}" y2="${at(to[1])}"/>`;
}

/** @param sizes Width and height, 0 or more. */
export function box(corner: readonly [number, number], sizes: readonly [number, number], as: string): Shape {
	const [width, height] = sizes.map(size => at(Math.max(0, size)));
	return `<rect class="${as}" x="${at(corner[0])}" y="${at(corner[1])}" width="${width}" height="${height}"/>`;
}

export function dot(centre: readonly [number, number], radius: number, as: string): Shape {
	return `<circle class="${as}" cx="${at(centre[0])}" cy="${at(centre[1])}" r="${radius}"/>`;
}

export function label(
	place: readonly [number, number],
	text: string,
	{as = 'label', anchor = 'start'}: {readonly as?: string; readonly anchor?: 'start' | 'middle' | 'end'} = {},
): Shape {
	return `<text class="${as}" x="${at(place[0])}" y="${at(place[1])}" text-anchor="${anchor}">${escapedMarkup(text)}</text>`;
}

/** Tenths of a pixel are fine enough, and keep the page short. */
function at(pixels: number): number {
	return Math.round(pixels * 10) / 10;
}

/** A step of 1, 2 or 5 times a power of ten that divides a span into about so many parts. */
export function niceStep(span: number, parts: number): number {
	const raw = span / parts;
	const power = 10 ** Math.floor(Math.log10(raw));
	return power * ([1, 2, 5, 10].find(step => step * power >= raw * 0.999) ?? 10);
}

/** Multiples of `step` from low to high, both included. */
export function ticks(low: number, high: number, step: number): readonly number[] {
	const first = Math.ceil(low / step - 1e-9);
	const last = Math.floor(high / step + 1e-9);
	return Array.from({length: Math.max(0, last - first + 1)}, (_, index) => (first + index) * step + 0);
}
