import {expect, test} from 'vitest';
import {setUpSheet} from '../../source/stages/set-up-sheet/index.ts';
import {allInTune, benchWith, entered, keyOf, typed} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

const bench = benchWith({deeds: [opened, read(1, -12)], tuning: allInTune, sheet: {name: 'Old black one'}});

test('the sheet itself is on the screen', () => {
	const how = setUpSheet.task(bench).how!.join('\n');
	expect(how).toContain('Set-up sheet: Old black one');
	expect(how).toContain('WHAT TO WATCH');
	expect(setUpSheet.task(bench).tableRests).toBe(true);
});

test('Enter finishes, one key writes it, another shows all of it', () => {
	expect(entered(setUpSheet.task(bench))).toEqual([{type: 'StagePassed', stage: 'set-up-sheet'}]);
	expect(keyOf(setUpSheet, 'w', bench)?.does).toEqual({kind: 'shell', name: 'save-sheet'});
	expect(keyOf(setUpSheet, 'v', bench)?.does).toEqual({kind: 'shell', name: 'sheet'});
});

test('what is typed is read back, never stored as something else', () => {
	expect(typed(setUpSheet, 'nice guitar', bench)).toMatchObject({
		kind: 'refused',
		said: expect.stringContaining('nice guitar'),
	});
});
