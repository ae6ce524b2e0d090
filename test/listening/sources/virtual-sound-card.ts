import {type ChildProcess, spawn} from 'node:child_process';
import {mkdtempSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {onPath} from '../../../source/listening/sources/on-path.ts';

/**
 * A sound card made of software: a sound server of our own with one output
 * that goes nowhere and whose monitor is the default input. What is played
 * comes back as live sound, through the same programs as a microphone's.
 */
export interface VirtualSoundCard {
	/** Environment in which recorders and players find it. */
	readonly environment: Readonly<Record<string, string | undefined>>;
	/** Plays samples; resolves when the last one has been played. */
	play(samples: Float32Array, sampleRateHz: number): Promise<void>;
	stop(): void;
}

const needed = ['pulseaudio', 'pactl', 'pacat', 'parec'] as const;

/** Starts one, `cardRateHz` samples a second inside; or says why there can be none here. */
export async function trySoundCard(cardRateHz: number): Promise<VirtualSoundCard | string> {
	if (process.platform !== 'linux') return 'a virtual sound card is made on Linux only';
	const missing = needed.filter(name => !onPath(name, process.env, process.platform));
	if (missing.length > 0) return `not installed: ${missing.join(', ')}`;
	return startSoundCard(cardRateHz);
}

async function startSoundCard(cardRateHz: number): Promise<VirtualSoundCard | string> {
	const folder = mkdtempSync(path.join(tmpdir(), 'evenfloat-card-'));
	const socket = path.join(folder, 'native');
	const environment = {
		...process.env,
		HOME: folder,
		XDG_RUNTIME_DIR: folder,
		PULSE_RUNTIME_PATH: folder,
		PULSE_SERVER: `unix:${socket}`,
		// How sox and arecord reach the same server, where their links to it are installed.
		AUDIODRIVER: 'pulseaudio',
	};
	writeFileSync(path.join(folder, '.asoundrc'), 'pcm.!default { type pulse }\nctl.!default { type pulse }\n');
	const modules = [
		`module-native-protocol-unix auth-anonymous=1 socket=${socket}`,
		`module-null-sink sink_name=guitar rate=${cardRateHz} channels=1 format=s16le`,
	];
	const server = spawn(
		'pulseaudio',
		[
			'-n',
			'--daemonize=no',
			'--use-pid-file=no',
			'--exit-idle-time=60',
			'--disable-shm=yes',
			...modules.flatMap(m => ['-L', m]),
		],
		{env: environment, stdio: ['ignore', 'ignore', 'pipe']},
	);
	let complained = '';
	server.stderr.setEncoding('utf8').on('data', (text: string) => {
		complained = `${complained}${text}`.slice(-2000);
	});
	for (let tries = 0; !(await succeeds('pactl', ['info'], environment)); tries++) {
		if (tries > 100 || server.exitCode !== null) {
			server.kill();
			rmSync(folder, {recursive: true, force: true});
			const last = complained.trim().split('\n').at(-1);
			const end = server.exitCode === null ? `no answer to ${tries} questions` : `it ended with ${server.exitCode}`;
			return `the sound server did not start: ${end}${last ? `, saying “${last}”` : ''}`;
		}
	}

	return {
		environment,
		async play(samples, sampleRateHz) {
			const player = playing(sampleRateHz, environment);
			player.stdin.end(bytesOf(samples));
			await ended(player);
		},
		stop() {
			server.kill();
			rmSync(folder, {recursive: true, force: true});
		},
	};
}

/** The player's own store of sound is long, so that a busy machine does not tear holes into what is played. */
function playing(sampleRateHz: number, environment: NodeJS.ProcessEnv) {
	const args = [
		'--playback',
		'--raw',
		'--format=s16le',
		'--channels=1',
		`--rate=${sampleRateHz}`,
		'--latency-msec=1000',
		'--device=guitar',
	];
	return spawn('pacat', args, {env: environment, stdio: ['pipe', 'ignore', 'ignore']});
}

function bytesOf(samples: Float32Array): Buffer {
	return Buffer.from(Int16Array.from(samples, x => Math.round(32_767 * x)).buffer);
}

async function succeeds(program: string, args: readonly string[], environment: NodeJS.ProcessEnv): Promise<boolean> {
	return (await ended(spawn(program, args, {env: environment, stdio: 'ignore'}))) === 0;
}

function ended(child: ChildProcess): Promise<number | null> {
	return new Promise((resolve, reject) => {
		child.on('error', reject);
		child.on('exit', resolve);
	});
}
