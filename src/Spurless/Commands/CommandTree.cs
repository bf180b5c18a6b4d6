using System.CommandLine;
using System.CommandLine.Help;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary>All commands of the program.</summary>
internal static class CommandTree
{
    /// <summary>Builds the commands for one call.</summary>
    public static RootCommand Create(ITerminal terminal)
    {
        RootCommand root = new("finds the mixtures of nearby transmitters that land on a receiver, and what would make them quiet");
        root.Options.Clear();
        root.Directives.Clear();
        root.Add(new HelpOption("--help", "-h", "-?") { Description = "this text" });
        root.Add(new Option<bool>("--version") { Description = "the program's version", Arity = ArgumentArity.Zero });
        root.Add(StudyCommand.Create(terminal));
        root.Add(LocateCommand.Create(terminal));
        root.Add(CureCommand.Create(terminal));
        root.Add(PlanCommand.Create(terminal));
        root.Add(NewcomerCommand.Create(terminal));
        root.Add(MixCommand.Create(terminal));
        root.Add(ResponseCommand.Create(terminal));
        root.Add(ServeCommand.Create(terminal));
        root.Add(StressCommand.Create(terminal));
        root.Add(ToleranceCommand.Create(terminal));
        root.Add(CoilCommand.Create(terminal));
        root.Add(FitCommand.Create(terminal));
        root.Add(ListenCommand.Create(terminal));
        root.Add(SurveyCommand.Create(terminal));
        root.Add(BypassCommand.Create(terminal));
        root.Add(ReceiverCommand.Create(terminal));
        root.Add(RegisterCommand.Create(terminal));
        root.Add(PathCommand.Create(terminal));
        root.Add(DesignCommand.Create(terminal));
        root.Add(CheckCommand.Create(terminal));
        root.Add(NewCommand.Create(terminal));
        root.Add(SchemaCommand.Create(terminal));
        return root;
    }
}
