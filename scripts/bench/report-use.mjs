// Loaded before the command (`node --import`): when it ends, what it used goes to file descriptor 3 as one JSON object.
import { writeSync } from 'node:fs';

process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  // Microseconds and kilobytes (Node's documentation of process.resourceUsage).
  writeSync(3, JSON.stringify({ cpuS: (userCPUTime + systemCPUTime) / 1e6, peakMib: maxRSS / 1024 }));
});
