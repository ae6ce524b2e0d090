import {readdirSync, readFileSync} from 'node:fs';
import {expect, test} from 'vitest';

const folders = ['source/stages', 'source/session/report'];
const files = folders.flatMap(folder =>
	readdirSync(folder, {recursive: true, encoding: 'utf8'})
		.filter(file => file.endsWith('words.ts'))
		.map(file => `${folder}/${file}`),
);

/** Every sentence in the words files: text between quotes or backticks, imports and comments left out. */
function sentencesIn(file: string): readonly string[] {
	const code = readFileSync(file, 'utf8')
		.replace(/^import .*$/gm, '')
		.replace(/\/\*\*[\s\S]*?\*\//g, '')
		.replace(/^\s*\/\/.*$/gm, '');
	return [...code.matchAll(/'((?:[^'\\\n]|\\.)*)'|`((?:[^`\\]|\\.)*)`/g)]
		.map(([, plain, template]) => (plain ?? template ?? '').replace(/\$\{[^}]*\}/g, '1'))
		.filter(text => /\s/.test(text));
}

test('every stage keeps its sentences in one file', () => {
	expect(files.length).toBeGreaterThanOrEqual(9);
	expect(files.flatMap(sentencesIn).length).toBeGreaterThan(150);
});

// A brand, a maker or a person would be a name, and names are written with a capital inside a sentence.
test('no names: inside a sentence only keys, notes and units have capitals', () => {
	const allowed = /^(?:Enter|Markdown|Press|Turned|Only|Hz|N|A|B|C|D|E|F|G|[A-G][#b]?\d?|Red|Allowed|Type|Sharp|Flat)$/;
	for (const file of files) {
		for (const sentence of sentencesIn(file)) {
			const inside = sentence.replace(/(^|[.?!:;“(]\s*|: )\p{Lu}[\p{L}’]*/gu, '$1');
			const names = (inside.match(/\p{Lu}[\p{L}\d#]*/gu) ?? []).filter(word => !allowed.test(word));
			expect(names, `${file}: ${sentence}`).toEqual([]);
		}
	}
});

test('no marks of trade, no tools of this workplace', () => {
	for (const file of files) expect(readFileSync(file, 'utf8')).not.toMatch(/[™®©]|https?:|\bissue\b|TODO/i);
});
