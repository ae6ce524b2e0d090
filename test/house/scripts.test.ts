import {readFileSync} from 'node:fs';
import {expect, test} from 'vitest';

const {scripts} = JSON.parse(readFileSync('package.json', 'utf8')) as {
	readonly scripts: Readonly<Record<string, string>>;
};

test.each(['README.md', 'DEVELOPERS.md'])('every npm script that %s names is there', file => {
	// Besides `npm run X`: names given after the first of a row, `bench:balance`.
	const text = readFileSync(file, 'utf8');
	const named = [...text.matchAll(/npm run ([a-z][a-z:-]*)|`((?:bench|walk):[a-z-]+)/g)].map(
		([, run, short]) => run ?? short!,
	);
	expect(named.length).toBeGreaterThan(3);
	expect(named.filter(name => !(name in scripts))).toEqual([]);
});
