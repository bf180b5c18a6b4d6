namespace Spurless.Radio.Quantities;

/// <summary>
/// The values of a quantity that make sense at a receiver: what files, commands and pages take and what the computations are made for is
/// this one range. Far beyond what anybody has, and near enough that no result overflows.
/// </summary>
/// <param name="Least">The least value in the quantity's SI unit or decibels; of a range of magnitudes the least but 0.</param>
/// <param name="Greatest">The greatest value.</param>
/// <param name="Words">The range as a remedy names it: <c>from 1 fH to 1000 H</c>.</param>
/// <param name="OfMagnitude">Whether 0 is meant too, and both signs where the quantity has them.</param>
public readonly record struct SenseRange(double Least, double Greatest, string Words, bool OfMagnitude = true)
{
    /// <summary>Whether a value lies in it; NaN does not.</summary>
    public bool Contains(double value) => OfMagnitude
        ? value == 0 || (Math.Abs(value) >= Least && Math.Abs(value) <= Greatest)
        : value >= Least && value <= Greatest;

    /// <summary>What is said about a text beyond it: what was found; what to write instead.</summary>
    internal string Problem(string? text, string kind, string example) =>
        $"{UnitTable.Quoted(text)} is beyond all sense; write {kind} {Words}, like {example}";
}
