using Spurless;
using Spurless.Terminals;

using Interruption interruption = new();
return await CommandFront.RunAsync(args, new SystemTerminal(), interruption.Token);
