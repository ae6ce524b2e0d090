import {describe, expect, test} from 'vitest';
import {hear, loseSamples} from '../../source/listening/hear.ts';
import {startListening} from '../../source/listening/listening.ts';
import {viewOf} from '../../source/listening/listening-view.ts';
import {lawWithFirstPartial} from '../../source/listening/partial-law.ts';
import {troubleCodes, troubleOf, troublesIn} from '../../source/listening/trouble.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {onePluck} from './synthesis/pluck.ts';
import {render} from './synthesis/scene.ts';

test.each(troubleCodes)('%s is one plain sentence', code => {
	const {said} = troubleOf(code, '50');
	expect(said).toMatch(/^[A-Z0-9].*[^.]\.$/);
	expect(said.match(/\.(\s|$)/g)).toHaveLength(1);
	expect(said.length).toBeLessThan(130);
});

test('whatever ends the sound sends the person back to typing', () => {
	for (const code of troubleCodes) {
		const {isFatal, said} = troubleOf(code, 'arecord');
		if (isFatal) expect(said).toContain('type the readings');
	}
});

/** Codes shown after hearing this. */
const codesAfter = (samples: Float32Array) =>
	troublesIn(hear(startListening(48_000), samples).listening).map(t => t.code);

describe('what the sound itself shows', () => {
	test('a muted input', () => {
		expect(codesAfter(new Float32Array(3 * 48_000))).toEqual(['silence']);
	});

	test('not a pause: a quiet room has noise', () => {
		const {samples} = render(rngFrom(1), {sampleRateHz: 48_000, durationS: 3, noise: 1e-4, tones: []});
		expect(codesAfter(samples)).toEqual([]);
	});

	test.each([50, 60])('hum of %i Hz', hz => {
		const {samples} = render(rngFrom(1), {
			sampleRateHz: 48_000,
			durationS: 3,
			noise: 1e-4,
			tones: [],
			hum: {hz: hz + 0.03, level: 0.01},
		});
		const troubles = troublesIn(hear(startListening(48_000), samples).listening);
		expect(troubles.map(t => t.code)).toEqual(['hum']);
		expect(troubles[0]!.said).toContain(`${hz} Hz`);
	});

	test('a sound cut off at full scale', () => {
		const {samples} = onePluck({law: lawWithFirstPartial(110, 1e-4), level: 1.5, lengthS: 0.2});
		expect(codesAfter(samples)).toContain('clipping');
		expect(viewOf(hear(startListening(48_000), samples).listening).isClipping).toBe(true);
	});

	test('lost samples, told by the source', () => {
		expect(troublesIn(loseSamples(startListening(48_000))).map(t => t.code)).toEqual(['losing-samples']);
	});

	test('a pluck hardly there', () => {
		const {samples} = onePluck({law: lawWithFirstPartial(110, 1e-4), level: 6e-4, quietDb: 25, lengthS: 1.6});
		expect(codesAfter(samples)).toEqual(['too-soft']);
	});
});
