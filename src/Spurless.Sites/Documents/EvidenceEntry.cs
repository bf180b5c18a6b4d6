using Spurless.Radio.Quantities;
using Spurless.Signals.Recognition;

namespace Spurless.Sites.Documents;

/// <summary>Something that was observed.</summary>
public abstract record EvidenceEntry
{
    /// <summary>Where it stands in the file.</summary>
    public required EntrySource Source { get; init; }
}

/// <summary>Where an attenuator was put for a test.</summary>
public enum InsertedAt
{
    /// <summary>At the antenna connector, in front of everything.</summary>
    Antenna,

    /// <summary>In front of the receiver, behind the amplifier.</summary>
    Receiver,
}

/// <summary>An attenuator was inserted and the interference fell.</summary>
/// <param name="Receiver">Name of the receiver that heard it.</param>
/// <param name="Inserted">The attenuator, above 0.</param>
/// <param name="At">Where it was put.</param>
/// <param name="OverNoise">What was read before, over noise.</param>
/// <param name="Fall">By how much the reading fell.</param>
/// <param name="PlusMinus">One sigma of the fall, above 0; null where not given.</param>
public sealed record AttenuatorTest(
    string Receiver, Decibels Inserted, InsertedAt At, Decibels OverNoise, Decibels Fall, Decibels? PlusMinus) : EvidenceEntry;

/// <summary>A filter was inserted and the interference fell.</summary>
/// <param name="Receiver">Name of the receiver that heard it.</param>
/// <param name="Inserted">The filter's measurement or circuit.</param>
/// <param name="OverNoise">What was read before, over noise.</param>
/// <param name="Fall">By how much the reading fell.</param>
/// <param name="PlusMinus">One sigma of the fall, above 0; null where not given.</param>
public sealed record FilterTest(
    string Receiver, FileReference Inserted, Decibels OverNoise, Decibels Fall, Decibels? PlusMinus) : EvidenceEntry;

/// <summary>An emitter's power was reduced and the interference fell.</summary>
/// <param name="Receiver">Name of the receiver that heard it.</param>
/// <param name="Emitter">Name of the emitter.</param>
/// <param name="By">The reduction, above 0; null for switched off.</param>
/// <param name="OverNoise">What was read before, over noise.</param>
/// <param name="Fall">By how much the reading fell.</param>
/// <param name="PlusMinus">One sigma of the fall, above 0; null where not given.</param>
public sealed record EmitterReduced(
    string Receiver, string Emitter, Decibels? By, Decibels OverNoise, Decibels Fall, Decibels? PlusMinus) : EvidenceEntry;

/// <summary>The interference's offset from the channel was measured.</summary>
/// <param name="Receiver">Name of the receiver that heard it.</param>
/// <param name="Measured">Offset from the channel's centre, up positive.</param>
/// <param name="PlusMinus">One sigma, above 0; null where not given.</param>
public sealed record OffsetMeasured(string Receiver, Frequency Measured, Frequency? PlusMinus) : EvidenceEntry;

/// <summary>A log of who was on the air when the interference was heard.</summary>
/// <param name="Log">Its file.</param>
public sealed record LogEvidence(FileReference Log) : EvidenceEntry;

/// <summary>A recording of the channel was listened to: which kinds of transmission were on it together.</summary>
/// <param name="Receiver">Name of the receiver whose channel it was.</param>
/// <param name="Kinds">The kinds, at least one.</param>
/// <param name="Deviation">Peak deviation that a recorded band showed, above 0; null where not measured.</param>
public sealed record RecordingHeard(string Receiver, IReadOnlyList<SignalKind> Kinds, Frequency? Deviation) : EvidenceEntry;
