import stringWidth from 'string-width';

/**
 * For terminals and files that cannot show more than ASCII: what stands for
 * what. One cell for one, so that a finished layout keeps its columns
 * and a whole screen can be changed in one place, last.
 */
const plain: Readonly<Record<string, string>> = {
	'−': '-',
	'±': '~',
	'°': 'd',
	'×': 'x',
	'·': '.',
	'…': '.',
	'–': '-',
	'—': '-',
	'≤': '<',
	'≥': '>',
	'≈': '~',
	'→': '>',
	'←': '<',
	'↑': '^',
	'↓': 'v',
	'“': '"',
	'”': '"',
	'‘': "'",
	'’': "'",
};

const graphemes = new Intl.Segmenter('en', {granularity: 'grapheme'});

/** The same text in ASCII, as many cells wide; a letter loses its marks, what has no stand-in becomes `?` for every cell. */
export function toAscii(text: string): string {
	if (isAscii(text)) return text;
	return Array.from(graphemes.segment(text), ({segment}) => standIn(segment)).join('');
}

function isAscii(text: string): boolean {
	return [...text].every(character => character <= '\u007F');
}

function standIn(grapheme: string): string {
	if (isAscii(grapheme)) return grapheme;
	const [base] = [...grapheme.normalize('NFD')];
	if (base! > '\u001F' && base! < '\u007F') return base!;
	return plain[base!] ?? '?'.repeat(stringWidth(grapheme));
}
