import {expect, test} from 'vitest';
import type {SoundEvent, SoundListener} from '../../../source/listening/sources/sound-source.ts';
import {reopened} from '../../../source/shell/ears/reopened.ts';

const samples: SoundEvent = {kind: 'samples', samples: new Float32Array(4)};
const begin: SoundEvent = {kind: 'open', sampleRateHz: 48_000, from: 'standard input'};

function made(isRecording: boolean) {
	let give: SoundListener = () => {};
	let opened = 0;
	let isHeld = false;
	const open = reopened(
		listener => {
			opened++;
			give = listener;
			return {
				stop: () => {},
				hold: () => {
					isHeld = true;
				},
				goOn: () => {
					isHeld = false;
				},
			};
		},
		{isRecording},
	);
	return {open, give: (event: SoundEvent) => give(event), opened: () => opened, isHeld: () => isHeld};
}

test('listened to twice it is opened once, and the second listener learns where sound comes from', async () => {
	const {open, give, opened} = made(false);
	const first: SoundEvent[] = [];
	const source = open(event => first.push(event));
	give(begin);
	give(samples);
	source.stop();
	give(samples);
	expect(first).toEqual([begin, samples]);
	const second: SoundEvent[] = [];
	open(event => second.push(event));
	await Promise.resolve();
	give(samples);
	expect(second).toEqual([begin, samples]);
	expect(opened()).toBe(1);
});

test('a recording waits in between', () => {
	const {open, isHeld} = made(true);
	const source = open(() => {});
	expect(isHeld()).toBe(false);
	source.stop();
	expect(isHeld()).toBe(true);
	open(() => {});
	expect(isHeld()).toBe(false);
});

test('one who comes when all is over learns how it began as well, or could not tell that it ended', async () => {
	const {open, give} = made(false);
	open(() => {}).stop();
	const began: SoundEvent = {kind: 'open', from: 'a pipe', sampleRateHz: 48_000};
	give(began);
	give({kind: 'end'});
	const told: SoundEvent[] = [];
	open(event => told.push(event));
	await Promise.resolve();
	expect(told).toEqual([began, {kind: 'end'}]);
});

test('once over it is over', async () => {
	const {open, give} = made(false);
	open(() => {}).stop();
	give({kind: 'end'});
	const told: SoundEvent[] = [];
	open(event => told.push(event));
	await Promise.resolve();
	expect(told).toEqual([{kind: 'end'}]);
});
