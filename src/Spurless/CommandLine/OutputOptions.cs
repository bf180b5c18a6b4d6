using System.CommandLine;

namespace Spurless.CommandLine;

/// <summary>What every command takes: <c>--format</c>, <c>--out</c> and <c>--quiet</c>.</summary>
internal sealed class OutputOptions
{
    /// <param name="formats">The formats the command knows, the default first; one alone gives no <c>--format</c>.</param>
    public OutputOptions(params string[] formats)
    {
        Formats = formats;
        Format = OptionKinds.Choice("--format", "how the result is written", formats);
        Out = OptionKinds.Text("--out", "FILE", "write the result to FILE instead of standard output; it appears whole or not at all");
        Quiet = OptionKinds.Switch("--quiet", "no progress and no remarks; errors are still told");
    }

    public IReadOnlyList<string> Formats { get; }

    public Option<string> Format { get; }

    public Option<string?> Out { get; }

    public Option<bool> Quiet { get; }

    public void AddTo(Command command)
    {
        if (Formats.Count > 1)
        {
            command.Add(Format);
        }

        command.Add(Out);
        command.Add(Quiet);
    }
}
