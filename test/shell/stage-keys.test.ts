import {expect, test} from 'vitest';
import {wizardKeys} from '../../source/stages/stage.ts';
import {sittingKeys} from '../../source/shell/sitting-keys.ts';
import {seenBy} from '../../source/shell/seen.ts';
import {pressesInSitting, simplePorts, simpleSitting} from '../helpers/simple-wizard.ts';
import {readdirSync, readFileSync} from 'node:fs';
import path from 'node:path';

/** Keys as the stages write them down: a stage may show a key in rare cases only, so its source is read, not run. */
const written = readdirSync('source/stages', {recursive: true, encoding: 'utf8'})
	.filter(file => file.endsWith('.ts'))
	.flatMap(file =>
		[...readFileSync(path.join('source/stages', file), 'utf8').matchAll(/\bkey: '([^']+)'/g)].map(([, key]) => ({
			file,
			key: key!,
		})),
	);

test('stages have keys, and this test sees them', () => {
	expect(written.length).toBeGreaterThan(5);
});

test.each(written)('$file: $key is no note and none of the wizard’s own', ({key}) => {
	expect(key).not.toMatch(/^[a-hA-H0-9+.-]$/);
	expect(wizardKeys as readonly string[]).not.toContain(key);
});

test('the keys that stages must leave alone are those that the wizard has', () => {
	const ports = simplePorts();
	const practice = pressesInSitting({screen: 'opening', kept: [], at: 1}, ports, 'enter');
	const sitting = pressesInSitting(pressesInSitting(practice, ports, 'enter'), ports, '-1\ru');
	const own = sittingKeys(sitting, seenBy(sitting, ports))
		.flatMap(({strokes}) => strokes)
		.filter(stroke => [...stroke].length === 1);
	expect([...new Set(own)].filter(key => !['t', '>'].includes(key)).sort()).toEqual(
		wizardKeys.filter(key => key !== '!' && key !== 'y').toSorted(),
	);
	expect(simpleSitting(ports).screen).toBe('sitting');
});
