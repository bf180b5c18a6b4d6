using Spurless.Bench;

return args.Contains("--full") ? FullMode.Run(args) : QuickMode.Run(args, TimeProvider.System, Console.Out, Console.Error);
