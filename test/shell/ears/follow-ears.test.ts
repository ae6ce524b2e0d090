import {expect, test} from 'vitest';
import {earsFollower} from '../../../source/shell/ears/follow-ears.ts';
import {hear} from '../../../source/shell/ears/hear.ts';
import type {Wizard} from '../../../source/shell/state.ts';
import {press} from '../../../source/shell/wizard.ts';
import {askingPitch, earPorts, fakeEars, hzOf, pluckAt, sat, viewAt} from '../../helpers/ears.ts';

/** The wizard with ears, as the screen runs it. */
function running() {
	const ears = fakeEars();
	const ports = earPorts(ears);
	let wizard: Wizard = askingPitch(ports);
	const follower = earsFollower(ports, event => set(hear(wizard, event, ports)));
	const set = (next: Wizard) => {
		wizard = next;
		follower.follow(wizard);
	};
	follower.follow(wizard);
	return {
		ears,
		follower,
		now: () => wizard,
		press: (...keys: readonly string[]) => {
			for (const key of keys) set(press(wizard, key, ports));
		},
	};
}

test('nothing is opened before it is asked for, once then, and closed when it is stopped', () => {
	const {ears, press, follower} = running();
	press(...'-12', 'enter', 'u');
	expect([ears.opened(), follower.isOpen()]).toEqual([0, false]);
	press('tab', 'down', 'up');
	expect([ears.opened(), ears.isOpen()]).toEqual([1, true]);
	press('tab');
	expect([ears.opened(), ears.isOpen()]).toEqual([1, false]);
	press('tab');
	expect(ears.opened()).toBe(2);
});

test.each(['q', 'l'])('it is closed on leaving with %s', key => {
	const {ears, press} = running();
	press('tab', key);
	expect(ears.isOpen()).toBe(false);
});

test('it is told what is asked for, anew with every reading, not with every view', () => {
	const {ears, press, now} = running();
	press('tab');
	const before = ears.attention();
	expect(before).toMatchObject({isWanted: true});
	ears.tell({kind: 'open', from: 'parec'});
	ears.tell(viewAt());
	expect(ears.attention()).toBe(before);
	ears.tell(pluckAt(hzOf(1, -20)));
	expect(ears.attention()).not.toBe(before);
	expect(ears.attention()?.believedHz).not.toEqual(before?.believedHz);
	expect(sat(now()).journal.story.at(-1)).toMatchObject({type: 'PitchRead', cents: -20});
});

test('"now" is passed on once a press', () => {
	const {ears, press} = running();
	press('=');
	expect(ears.nows()).toBe(0);
	press('tab', '=');
	expect(ears.nows()).toBe(1);
	press('down', 'up', '=');
	expect(ears.nows()).toBe(2);
});

test('after a trouble the ears are closed, and can be opened again', () => {
	const {ears, press, follower, now} = running();
	press('tab');
	ears.tell({kind: 'trouble', trouble: {code: 'no-device', said: 'No input.', isFatal: true}});
	expect(follower.isOpen()).toBe(false);
	expect(sat(now()).ear).toBeUndefined();
	press('tab');
	expect([ears.opened(), follower.isOpen()]).toEqual([2, true]);
});
