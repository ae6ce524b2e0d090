/**
 * For terminals and files that cannot show more than ASCII: what stands for
 * what. One character for one, so that a finished layout keeps its columns
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

/** The same text in ASCII, as many characters long; a character without a stand-in becomes `?`. */
export function toAscii(text: string): string {
	return Array.from(text, character => (character <= '\u007F' ? character : (plain[character] ?? '?'))).join('');
}
