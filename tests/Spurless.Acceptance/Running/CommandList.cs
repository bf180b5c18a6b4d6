using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Commands;

namespace Spurless.Acceptance.Running;

/// <summary>The program's commands, for tests that go through all of them.</summary>
internal static class CommandList
{
    /// <summary>All commands.</summary>
    public static IReadOnlyList<Verb> All { get; } = [.. CommandTree.Create(new CapturedTerminal()).Subcommands.SelectMany(Verbs)];

    /// <summary>What one types for a command: its name, behind that of the command it belongs to.</summary>
    public static string PathOf(Verb verb) =>
        string.Join(' ', [.. verb.Parents.OfType<Command>().Where(static p => p is not RootCommand).Select(static p => p.Name), verb.Name]);

    /// <summary>Their names, for theories.</summary>
    public static TheoryData<string> Names => [.. All.Select(PathOf)];

    /// <summary>All worked examples that end by themselves, for theories.</summary>
    public static TheoryData<string> Examples => [.. Lines(runOn: false)];

    /// <summary>All worked examples that run until they are stopped.</summary>
    public static TheoryData<string> EndlessExamples => [.. Lines(runOn: true)];

    /// <summary>One command.</summary>
    public static Verb Named(string name) => All.Single(v => PathOf(v) == name);

    /// <summary>The lines of all examples of one of the two sorts.</summary>
    public static IEnumerable<string> Lines(bool runOn) =>
        All.SelectMany(static v => v.Examples).Where(e => e.RunsOn == runOn).Select(static e => e.Line);

    /// <summary>All option names of a command.</summary>
    public static IEnumerable<string> OptionsOf(Command command) => command.Options.Select(static o => o.Name);

    private static IEnumerable<Verb> Verbs(Command command) => command is Verb verb ? [verb] : command.Subcommands.SelectMany(Verbs);
}
