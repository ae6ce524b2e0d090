import {describe, expect, test} from 'vitest';
import {seenBy} from '../../source/shell/seen.ts';
import type {Sitting} from '../../source/shell/state.ts';
import {paste, press} from '../../source/shell/wizard.ts';
import {presses, pressesInSitting, simplePorts, simpleSitting} from '../helpers/simple-wizard.ts';

const types = ({journal}: Sitting) => journal.story.map(({type}) => type);

/** Past the question for the name. */
function atReadings(ports = simplePorts()) {
	return {ports, sitting: pressesInSitting(simpleSitting(ports), ports, 'Blue one\r\r')};
}

describe('an answer', () => {
	test('is stored before the screen moves on, and said back', () => {
		const {ports, sitting} = atReadings();
		const after = pressesInSitting(sitting, ports, '-12\r');
		expect(after.journal.story.at(-1)).toMatchObject({type: 'PitchRead', string: 1, cents: -12, entered: '-12'});
		expect(ports.store.journals.get(after.id)).toEqual(after.journal);
		expect(after.message?.text).toBe('Stored: string 1 (E4) read −12.0 cents.');
		expect(after.entry.text).toBe('');
	});

	test('for another string may be typed as it is shown, on a practice guitar too: the space plucks nothing', () => {
		const ports = simplePorts();
		const asked = simpleSitting({...ports, firstSheet: () => ports.firstSheet(7)});
		const practice = pressesInSitting(asked, ports, 'Blue one\r\r');
		const after = pressesInSitting(practice, ports, '5: -3\r');
		expect(after.journal.story.at(-1)).toMatchObject({type: 'PitchRead', string: 5, cents: -3});
		expect(types(after).filter(type => type === 'PitchRead')).toHaveLength(1);
		// Chosen and nothing typed behind it, it is plucked.
		expect(pressesInSitting(practice, ports, '5:p').journal.story.at(-1)).toMatchObject({string: 5, cents: -7});
		expect(pressesInSitting(practice, ports, '5:  ').journal.story.at(-1)).toMatchObject({string: 5, cents: -7});
	});

	test('that is refused stays on the line, with what was read', () => {
		const {ports, sitting} = atReadings();
		const after = pressesInSitting(sitting, ports, '1O\r');
		expect(after.entry.text).toBe('1O');
		expect(after.message?.text).toContain('1O');
		expect(after.journal).toBe(sitting.journal);
	});

	test('that the bench does not allow stays on the line', () => {
		const {ports, sitting} = atReadings();
		const after = pressesInSitting(sitting, ports, '9999\r\r');
		expect(after.entry.text).toBe('9999');
		expect(after.message?.text).toBe('The bench does not allow that.');
	});

	test('that surprises is asked about; Enter again means it', () => {
		const {ports, sitting} = atReadings();
		const asked = pressesInSitting(sitting, ports, '-400\r');
		expect(asked.journal).toBe(sitting.journal);
		expect(asked.entry.text).toBe('-400');
		expect(pressesInSitting(asked, ports, 'enter').journal.story.at(-1)).toMatchObject({cents: -400});
		expect(pressesInSitting(asked, ports, '!').journal.story.at(-1)).toMatchObject({cents: -400});
	});

	test('that was changed after the question is a new answer', () => {
		const {ports, sitting} = atReadings();
		const after = pressesInSitting(sitting, ports, '-400\r', 'backspace', 'enter');
		expect(after.journal.story.at(-1)).toMatchObject({cents: -40});
	});

	test('may be for another string, chosen with arrows or by number', () => {
		const {ports, sitting} = atReadings();
		expect(pressesInSitting(sitting, ports, '5: -3\r').journal.story.at(-1)).toMatchObject({string: 5, cents: -3});
		const chosen = pressesInSitting(sitting, ports, 'down', 'down');
		expect(chosen.entry.text).toBe('3: ');
		expect(pressesInSitting(chosen, ports, '+4\r').journal.story.at(-1)).toMatchObject({string: 3, cents: 4});
	});

	test('that cannot be stored leaves everything as it was and says so', () => {
		const {ports, sitting} = atReadings();
		ports.store.refuse('The disk is full.');
		const after = pressesInSitting(sitting, ports, '-12\r');
		expect(after.journal).toBe(sitting.journal);
		expect(after.entry.text).toBe('-12');
		expect(after.message).toEqual({as: 'danger', text: 'Not stored. The disk is full.'});
		ports.store.refuse(undefined);
		expect(pressesInSitting(after, ports, 'enter').journal.story.at(-1)).toMatchObject({cents: -12});
	});
});

describe('letters', () => {
	test('are commands on an empty line and text on a line that has begun', () => {
		const {ports, sitting} = atReadings();
		expect(pressesInSitting(sitting, ports, 'u').journal.undone).toHaveLength(1);
		expect(pressesInSitting(sitting, ports, 'E2u').entry.text).toBe('E2u');
	});

	test('always are text where words are asked for', () => {
		const ports = simplePorts();
		const sitting = simpleSitting(ports);
		expect(pressesInSitting(sitting, ports, 'quilted one').entry.text).toBe('quilted one');
		expect(pressesInSitting(sitting, ports, 'quilted one\r').journal.story.at(-1)).toMatchObject({
			sheet: {name: 'quilted one'},
		});
	});

	test('of notes begin an entry', () => {
		const {ports, sitting} = atReadings();
		for (const note of 'abcdefghABCDEFGH') expect(pressesInSitting(sitting, ports, note).entry.text).toBe(note);
	});
});

describe('taking back', () => {
	test('withdraws entry by entry to the beginning and puts them back', () => {
		const {ports, sitting} = atReadings();
		const full = pressesInSitting(sitting, ports, '-1\r-2\rt-3\r');
		const all = types(full);
		const start = pressesInSitting(full, ports, 'uuuuuuuuu', 'ctrl+u', 'ctrl+u', 'ctrl+u');
		expect(types(start)).toEqual(['SheetFilled']);
		expect(start.message?.text).toBe('There is nothing to take back: this is the beginning.');
		const again = Array.from({length: 12}).reduce<Sitting>(now => pressesInSitting(now, ports, 'ctrl+r'), start);
		expect(types(again)).toEqual(all);
		expect(again.journal.story).toEqual(full.journal.story);
	});

	test('is stored like anything else', () => {
		const {ports, sitting} = atReadings();
		const after = pressesInSitting(sitting, ports, '-1\ru');
		expect(ports.store.journals.get(after.id)).toEqual(after.journal);
		expect(after.message?.text).toBe('Taken back: string 1 (E4) read −1.0 cent. r puts it back.');
	});
});

describe('the way through', () => {
	test('goes on with Enter when a stage is done, and back with <', () => {
		const {ports, sitting} = atReadings();
		expect(seenBy(sitting, ports).stage?.id).toBe('readings');
		const back = pressesInSitting(sitting, ports, '<');
		expect(back.journal.story.at(-1)).toMatchObject({type: 'StageReopened', stage: 'names'});
		expect(seenBy(back, ports).stage?.id).toBe('names');
		const on = pressesInSitting(back, ports, 'enter');
		expect(seenBy(on, ports).stage?.id).toBe('readings');
	});

	test('a key that passes over something asks first, and only y is yes', () => {
		const {ports, sitting} = atReadings();
		const asked = pressesInSitting(sitting, ports, '>');
		expect(asked.message?.text).toContain('Go on?');
		expect(asked.journal).toBe(sitting.journal);
		expect(pressesInSitting(asked, ports, 'n').journal).toBe(sitting.journal);
		expect(pressesInSitting(asked, ports, 'enter').journal).toBe(sitting.journal);
		const done = pressesInSitting(asked, ports, 'y');
		expect(seenBy(done, ports).stage).toBeUndefined();
		expect(ports.store.list()[0]).toMatchObject({finished: true});
	});

	test('the end asks nothing and can be reopened', () => {
		const {ports, sitting} = atReadings();
		const done = pressesInSitting(sitting, ports, '>y');
		expect(pressesInSitting(done, ports, '-12\r').journal).toBe(done.journal);
		expect(seenBy(pressesInSitting(done, ports, '<'), ports).stage?.id).toBe('readings');
	});
});

describe('other keys', () => {
	test('a note is words, whatever it begins with', () => {
		const {ports, sitting} = atReadings();
		const after = pressesInSitting(sitting, ports, 'nquite worn at fret 2\r');
		expect(after.journal.story.at(-1)).toMatchObject({type: 'NoteWritten', text: 'quite worn at fret 2'});
		expect(after.writing).toBe('answer');
		expect(pressesInSitting(sitting, ports, 'nx', 'escape').writing).toBe('answer');
	});

	test('help, outlook and story open and close, and an answer closes them', () => {
		const {ports, sitting} = atReadings();
		expect(pressesInSitting(sitting, ports, '?').overlay).toBe('help');
		expect(pressesInSitting(sitting, ports, '??').overlay).toBeUndefined();
		expect(pressesInSitting(sitting, ports, '?o').overlay).toBe('outlook');
		expect(pressesInSitting(sitting, ports, 's', 'escape').overlay).toBeUndefined();
		expect(pressesInSitting(sitting, ports, 's-1').overlay).toBeUndefined();
	});

	test('the hands of a practice guitar act with one key, on the asked string or the chosen one', () => {
		const ports = simplePorts();
		const practice = presses({screen: 'opening', kept: [], at: 0}, ports, '2');
		const sitting = pressesInSitting(practice, ports, 'enter');
		expect(seenBy(sitting, ports).stage?.id).toBe('readings');
		expect(pressesInSitting(sitting, ports, ' ').journal.story.at(-1)).toMatchObject({string: 1, cents: -7});
		expect(pressesInSitting(sitting, ports, 'pp').journal.story.at(-1)).toMatchObject({string: 2, cents: -7});
		expect(pressesInSitting(sitting, ports, 'down', 'down', 'down', ' ').journal.story.at(-1)).toMatchObject({
			string: 4,
		});
	});

	test('a guitar on the bench has no simulated hands', () => {
		const {ports, sitting} = atReadings();
		expect(pressesInSitting(sitting, ports, 'p').journal).toBe(sitting.journal);
	});

	test('leaving says where it is stored and how to go on', () => {
		const {ports, sitting} = atReadings();
		const left = presses(sitting, ports, 'q');
		expect(left).toMatchObject({screen: 'left', isFinished: false});
		if (left.screen !== 'left') return;
		expect(left.said.join('\n')).toContain('/nowhere');
		expect(left.said.join('\n')).toContain(`evenfloat open ${sitting.id}`);
	});

	test('leaving before anything was entered stores nothing', () => {
		const ports = simplePorts();
		const left = presses(simpleSitting(ports), ports, 'ctrl+c');
		expect(left.screen === 'left' && left.said).toEqual(['Nothing was entered, so nothing is stored.']);
		expect(ports.store.journals.size).toBe(0);
	});
});

describe('a paste', () => {
	test('is text, whatever letter it begins with', () => {
		const {ports, sitting} = atReadings();
		const after = paste(sitting, 'quit', ports);
		expect(after.screen === 'sitting' && after.entry.text).toBe('quit');
	});

	test('of several lines is several answers', () => {
		const {ports, sitting} = atReadings();
		const after = paste(sitting, '-12.5\r\n-3\n', ports);
		expect(after.screen === 'sitting' && after.journal.story.slice(-2)).toMatchObject([{cents: -12.5}, {cents: -3}]);
	});

	test('stops at the first answer that is not simply stored', () => {
		const {ports, sitting} = atReadings();
		const after = paste(sitting, '-1\nbad\n-3\n', ports);
		expect(after.screen === 'sitting' && after.entry.text).toBe('bad');
		expect(after.screen === 'sitting' && after.journal.story.at(-1)).toMatchObject({cents: -1});
	});
});

describe('looking on', () => {
	test('enters nothing', () => {
		const {ports, sitting} = atReadings();
		ports.store.hold(sitting.id);
		const asked = presses(presses(sitting, ports, 'l'), ports, 'enter');
		expect(asked).toMatchObject({screen: 'opening', asking: {kind: 'held'}});
		const look = pressesInSitting(asked, ports, 'enter');
		expect(look.isLookOnly).toBe(true);
		const after = pressesInSitting(look, ports, '-12\r');
		expect(after.journal).toBe(look.journal);
		expect(after.message?.text).toContain('only look on');
		expect(pressesInSitting(asked, ports, 'y').isLookOnly).toBe(false);
		expect(press(asked, 'x', ports)).toMatchObject({screen: 'opening'});
	});
});
