using ServiceRules.Cli.Setup;

return CommandLine.Run(args, Console.Out, Console.Error);
