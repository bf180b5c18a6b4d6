using Spurless.Circuits.Parts;

namespace Spurless.Design.Families;

/// <summary>What is turned to align one place of a filter.</summary>
public enum TuningKind
{
    /// <summary>A resonator from a node to ground; the next one is detuned by a short across it.</summary>
    Tank,

    /// <summary>A series resonator; the next one is detuned by an open circuit.</summary>
    Mesh,

    /// <summary>A trap, set by its notch.</summary>
    Trap,
}

/// <summary>One place of a filter that is aligned.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Node">Tank: its node. Mesh: the node before its series branch. Trap: its hot node.</param>
/// <param name="Capacitor">Its capacitor that can be a trimmer; null where it has none.</param>
/// <param name="Coil">Its coil or line, whose length can be adjusted.</param>
/// <param name="NotchHz">Of a trap: the frequency in hertz that it keeps out; else null.</param>
public sealed record TuningSpot(TuningKind Kind, string Node, string? Capacitor, string? Coil, double? NotchHz = null);

/// <summary>A circuit as synthesised: lossless parts of any value, from which the optimiser starts.</summary>
/// <param name="Family">What it is in words of the trade.</param>
/// <param name="Circuit">The circuit, lossless but for lines.</param>
/// <param name="Spots">What is aligned, from port 1 on.</param>
/// <param name="Sharpened">Whether the loss of the parts was reckoned in beforehand.</param>
internal sealed record Blueprint(string Family, Circuit Circuit, IReadOnlyList<TuningSpot> Spots, bool Sharpened = false);
