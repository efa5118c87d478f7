/** Runs command after command of the built program named by the first argument, as `runProgram` asks; ends with whoever asks. */
const { run } = require(process.argv[2]);

process.on("disconnect", () => process.exit());
process.on("message", async ({ words, cwd, env }) => {
  const told = { stdout: "", stderr: "" };
  for (const name of ["stdout", "stderr"])
    process[name].write = (text) => {
      told[name] += text;
      return true;
    };
  for (const name of Object.keys(process.env)) if (!(name in env)) delete process.env[name];
  Object.assign(process.env, env);
  process.chdir(cwd);
  process.exitCode = undefined;
  await run(words);
  process.send({ status: process.exitCode ?? 0, ...told });
});
