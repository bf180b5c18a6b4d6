using Spurless.Circuits.Parts;
using Spurless.Files.Yaml.Editing;
using Spurless.Sites.Documents;

namespace Spurless.Workbench.Desk;

/// <summary>Where an item of the desk takes effect, in the model and in the file alike.</summary>
internal abstract record DeskTarget
{
    /// <summary>Whether a text may stand there.</summary>
    public virtual bool Allows(string text) => true;
}

/// <summary>A stage of the chain that may be taken out.</summary>
internal sealed record StagePresence(int Receiver, int Index) : DeskTarget;

/// <summary>A circuit or sweep that may be put into the chain.</summary>
internal sealed record StageOffered(int Receiver, int Before, string Path, bool IsCircuit) : DeskTarget
{
    public YamlValue Entry => YamlValue.Map((IsCircuit ? "circuit" : "two_port", YamlValue.Of(Path)));

    public ChainStageEntry Stage(string siteFile)
    {
        FileReference reference = new(Path, siteFile, default);
        return IsCircuit ? new CircuitStage(reference) : new TwoPortStage(reference);
    }
}

/// <summary>An attenuator that may be put before the receiver.</summary>
internal sealed record PadOffered(int Receiver, int Before) : DeskTarget
{
    public override bool Allows(string text) => DeskTexts.Pad(text) is not null;
}

/// <summary>A number of a stage of the chain.</summary>
/// <param name="Receiver">Whose chain.</param>
/// <param name="Index">Which stage, as in the file.</param>
/// <param name="Keys">The keys from the stage to the value.</param>
/// <param name="Suffix">What stands behind the value in the file: <c> at 145 MHz</c>.</param>
/// <param name="Change">The stage with a text in place; null where the text may not stand there.</param>
/// <param name="Stage">The stage as it is.</param>
internal sealed record StageField(
    int Receiver,
    int Index,
    IReadOnlyList<string> Keys,
    string Suffix,
    Func<ChainStageEntry, string, ChainStageEntry?> Change,
    ChainStageEntry Stage) : DeskTarget
{
    public override bool Allows(string text) => Change(Stage, text + Suffix) is not null;
}

/// <summary>A number of the receiver.</summary>
internal sealed record ReceiverField(
    int Receiver, IReadOnlyList<string> Keys, Func<ReceiverEntry, string, ReceiverEntry?> Change, ReceiverEntry Entry) : DeskTarget
{
    public override bool Allows(string text) => Change(Entry, text) is not null;
}

/// <summary>The isolator behind a transmitter, stated at one frequency.</summary>
internal sealed record IsolatorField(int Emitter, string Suffix, bool IsStated) : DeskTarget
{
    public override bool Allows(string text) => DeskTexts.Isolator(text + Suffix) is not null;
}

/// <summary>A part's value in a circuit's own file.</summary>
internal sealed record PartField(
    string Path, string Part, IReadOnlyList<string> Keys, Func<Part, string, Part?> Change, Part Entry) : DeskTarget
{
    public override bool Allows(string text) => Change(Entry, text) is not null;
}
