import {readFileSync} from 'node:fs';
import {expect, test} from 'vitest';
import {pictureSvg} from '../../demo/picture.ts';

test('the picture in README is the screen as it is drawn now', () => {
	expect(readFileSync('README.md', 'utf8')).toContain('(demo/expected/screen.svg)');
	expect(pictureSvg(), 'npm run demo -- --update').toBe(readFileSync('demo/expected/screen.svg', 'utf8'));
});

test('it shows one instruction, every string, and what the turn will move', () => {
	const words = [...pictureSvg().matchAll(/>([^<>]+)<\/text>/g)].map(([, text]) => text!).join(' ');
	expect(words).toMatch(/Turn string \d/);
	for (const note of ['E4', 'B3', 'G3', 'D3', 'A2', 'E2']) expect(words).toContain(note);
	expect(words).toMatch(/Turning string \d moves the others/);
});
