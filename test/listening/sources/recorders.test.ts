import {describe, expect, test} from 'vitest';
import {
	complaintIn,
	directShowInputs,
	platforms,
	recorderCommand,
	recordersFor,
	tellsOfLoss,
} from '../../../source/listening/sources/recorders.ts';

describe.each(platforms)('on %s', platform => {
	test.each(recordersFor(platform))(
		'%s is asked for one channel of 16 bits at the rate wanted, and the input by name',
		name => {
			const {args} = recorderCommand(name, platform, 44_100, 'the input');
			const line = args.join(' ');
			expect(line).toContain('44100');
			expect(line).toContain('the input');
			expect(line).toMatch(/s16|S16|-b 16/);
			expect(line).toMatch(/-c 1|--channels=1|-ac 1/);
		},
	);
});

// Wording of the programs from memory and, for parec, arecord and sox, from the programs themselves on Debian 12.
test.each([
	['Connection failure: Connection refused', 'no-sound-server'],
	['Stream error: No such entity', 'no-device'],
	[
		"ALSA lib confmisc.c:855:(parse_card) cannot find card '0'\narecord: main:831: audio open error: No such file or directory",
		'no-device',
	],
	['arecord: main:831: audio open error: Device or resource busy', 'busy'],
	['arecord: main:831: audio open error: Permission denied', 'refused'],
	["sox FAIL formats: can't open input  `default': snd_pcm_open error: No such file or directory", 'no-device'],
	[
		'[AVFoundation indev] Failed to create AV capture input device: Cannot use the microphone: not authorized',
		'refused',
	],
	['something never seen', 'stopped'],
] as const)('"%s" is %s', (words, code) => {
	expect(complaintIn(words)).toBe(code);
});

test('lost samples are noticed in what recorders say', () => {
	expect(tellsOfLoss('overrun!!! (at least 12.345 ms long)')).toBe(true);
	expect(tellsOfLoss('ALSA buffer xrun.')).toBe(true);
	expect(tellsOfLoss('Recording raw data')).toBe(false);
});

test('inputs are found in both ways of listing them', () => {
	// From memory: until version 4 with headings, since version 5 with the kind behind each name.
	const old =
		'[dshow @ 1] DirectShow video devices\n[dshow @ 1]  "Camera"\n[dshow @ 1]     Alternative name "@device_pnp_1"\n[dshow @ 1] DirectShow audio devices\n[dshow @ 1]  "Line In (USB)"\n[dshow @ 1]     Alternative name "@device_cm_1"\n';
	const recent =
		'[dshow @ 1] "Camera" (video)\n[dshow @ 1]   Alternative name "@device_pnp_1"\r\n[dshow @ 1] "Line In (USB)" (audio)\n';
	expect(directShowInputs(old)).toEqual(['Line In (USB)']);
	expect(directShowInputs(recent)).toEqual(['Line In (USB)']);
	expect(directShowInputs('')).toEqual([]);
});
