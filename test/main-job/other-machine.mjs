// Loaded before the command (`node --import`) to stand for another machine on another day: folders list their files in reverse, the
// clock is years ahead, random numbers are others, and the machine has another name.
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import os from 'node:os';

const AHEAD_MS = 3 * 365.25 * 86_400_000;
const RealDate = Date;
globalThis.Date = class extends RealDate {
  constructor(...parts) {
    if (parts.length === 0) super(RealDate.now() + AHEAD_MS);
    else super(...parts);
  }
  static now() {
    return RealDate.now() + AHEAD_MS;
  }
};

const random = Math.random;
Math.random = () => 1 - 2 ** -53 - random();

const { readdirSync, readdir } = fs;
const { readdir: readdirLater } = fs.promises;
fs.readdirSync = (...args) => readdirSync(...args).reverse();
fs.promises.readdir = async (...args) => (await readdirLater(...args)).reverse();
fs.readdir = (...args) => {
  const told = args.pop();
  readdir(...args, (error, names) => told(error, names?.reverse()));
};
os.hostname = () => 'orchard';
os.userInfo = () => ({ username: 'heron', uid: 1, gid: 1, shell: null, homedir: '/home/heron' });
syncBuiltinESMExports();
