using Spurless.Bench;
using Spurless.Bench.Registers;

return args.Contains("--full") ? FullMode.Run(args)
    : args.Contains("--make-register") ? MakeRegister.Run(args, Console.Out, Console.Error)
    : QuickMode.Run(args, TimeProvider.System, Console.Out, Console.Error);
