import {createReadStream} from 'node:fs';
import path from 'node:path';
import type {Readable} from 'node:stream';
import {troubleOf} from '../trouble.ts';
import {startByteSound, takeBytes} from './byte-sound.ts';
import type {SoundListener, SoundSource} from './sound-source.ts';

/** A WAV file, read as fast as it is heard. */
export function openWavFile(file: string, listener: SoundListener): SoundSource {
	return openBytes(createReadStream(file, {highWaterMark: 16_384}), {from: path.basename(file)}, listener);
}

/** Standard input: a WAV stream, or raw samples of 16 bits, one channel, little-endian, at `rawRateHz`. */
export function openStandardInput(input: Readable, rawRateHz: number, listener: SoundListener): SoundSource {
	return openBytes(input, {from: 'standard input', rawRateHz}, listener);
}

function openBytes(
	stream: Readable,
	{from, rawRateHz}: {readonly from: string; readonly rawRateHz?: number},
	listener: SoundListener,
): SoundSource {
	let sound = startByteSound(rawRateHz);
	let isOpen = false;
	let isOver = false;
	const over = (event: Parameters<SoundListener>[0]) => {
		if (isOver) return;
		isOver = true;
		stream.destroy();
		listener(event);
	};
	stream.on('data', (chunk: Buffer) => {
		if (isOver) return;
		const taken = takeBytes(sound, chunk);
		sound = taken.sound;
		if (sound.kind === 'not-sound') return over({kind: 'trouble', trouble: troubleOf('not-sound', from)});
		if (sound.kind === 'data' && !isOpen) {
			isOpen = true;
			listener({kind: 'open', sampleRateHz: sound.format.sampleRateHz, from});
		}

		if (taken.samples.length > 0) listener({kind: 'samples', samples: taken.samples});
	});
	stream.on('error', () => over({kind: 'trouble', trouble: troubleOf('no-file', from)}));
	stream.on('end', () => over(isOpen ? {kind: 'end'} : {kind: 'trouble', trouble: troubleOf('not-sound', from)}));
	return {
		stop() {
			isOver = true;
			stream.destroy();
		},
		hold: () => void stream.pause(),
		goOn() {
			if (!isOver) stream.resume();
		},
	};
}
