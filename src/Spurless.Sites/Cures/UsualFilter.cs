using System.Globalization;
using System.Text;
using Spurless.Circuits.Parts;
using Spurless.Design.Families;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Sites.Cures;

/// <summary>A filter of a usual kind, to be tried before any is designed.</summary>
public abstract record UsualFilter
{
    /// <summary>Leakage round a box of chips and wire, in dB, which caps what it keeps out (common practice).</summary>
    public const double BoxLeakageDb = 70;

    /// <summary>Leakage round cavities, cables and connectors, in dB (common practice).</summary>
    public const double CavityLeakageDb = 90;

    /// <summary>The circuit; null where this kind has none here.</summary>
    internal abstract Circuit? Make();

    /// <summary>The file that is written for it, relative to the site file.</summary>
    public abstract string Path { get; }

    /// <summary>The text of that file.</summary>
    /// <param name="circuit">Its circuit.</param>
    internal static string Text(Circuit circuit)
    {
        StringBuilder text = new();
        text.Append("# What a filter of this kind does, to be tried in a study: not built, not measured, no bill of parts.\n");
        text.Append("# Helical resonators and cavities open again near three times their frequency, which this circuit does not show.\n");
        text.Append("spurless_circuit: 1\n");
        text.Append("name: ").Append(circuit.Name).Append('\n');
        text.Append(
            CultureInfo.InvariantCulture,
            $"ports: {{ in: {circuit.PortIn}, out: {circuit.PortOut}, impedance: {circuit.ImpedanceOhm:0.###} ohm }}\n");
        text.Append(CultureInfo.InvariantCulture, $"leakage: {circuit.LeakageDb:0.#} dB\n").Append("parts:\n");
        foreach (Part part in circuit.Parts)
        {
            text.Append("  ").Append(part.Name).Append(": { ").Append(PartText.Keys(part)).Append(" }\n");
        }

        return text.ToString();
    }

    /// <summary>A frequency within a file's name.</summary>
    private protected static string Mega(double hertz) => MegahertzText.Of(hertz, 0, 6);
}

/// <summary>A Butterworth or Chebyshev band-pass round the channel.</summary>
/// <param name="Resonators">1 to 5.</param>
/// <param name="UnloadedQ">150 (chips), 300 (wire), 800 (helical), 2,500 (cavity): common practice at VHF.</param>
/// <param name="CentreHz">The channel in hertz.</param>
/// <param name="LossDb">Loss on the channel for which it is made, in dB.</param>
/// <param name="ChannelHz">The channel's raster in hertz.</param>
/// <param name="RippleDb">Ripple of a Chebyshev in dB; 0 for a Butterworth.</param>
public sealed record UsualBandPass(
    int Resonators, double UnloadedQ, long CentreHz, double LossDb, long ChannelHz, double RippleDb = 0) : UsualFilter
{
    /// <summary>No narrower than this share of the frequency: what is narrower drifts out of tune (common practice).</summary>
    private const double NarrowestShare = 0.002;

    /// <inheritdoc/>
    public override string Path => string.Create(
        CultureInfo.InvariantCulture,
        $"ways/band-pass-{Mega(CentreHz)}-{Resonators}-q{UnloadedQ:0}-{LossDb:0.#}db{Ripple("-ripple-{0:0.##}db")}.circuit.yaml");

    /// <inheritdoc/>
    internal override Circuit? Make() =>
        UsualFilters.BandPass(
            Resonators, UnloadedQ, CentreHz, LossDb, Math.Max(4 * ChannelHz, NarrowestShare * CentreHz), RippleDb) is { } made
            ? made with
            {
                Name = string.Create(
                    CultureInfo.InvariantCulture,
                    $"band-pass of {Resonators} {(Resonators == 1 ? "resonator" : "resonators")}, unloaded Q {UnloadedQ:0}")
                    + Ripple(", {0:0.##} dB of ripple"),
                LeakageDb = UnloadedQ > 500 ? CavityLeakageDb : BoxLeakageDb,
            }
            : null;

    private string Ripple(string format) => RippleDb > 0 ? string.Format(CultureInfo.InvariantCulture, format, RippleDb) : "";
}

/// <summary>A matched ladder with one or two traps.</summary>
/// <param name="NotchesHz">What is kept out, in hertz.</param>
/// <param name="CentreHz">The channel in hertz.</param>
/// <param name="Against">Names of the emitters that are kept out, in the order of the notches.</param>
public sealed record UsualTrap(IReadOnlyList<long> NotchesHz, long CentreHz, IReadOnlyList<string> Against) : UsualFilter
{
    /// <inheritdoc/>
    public override string Path =>
        $"ways/trap-{Mega(CentreHz)}-against-{string.Join('-', NotchesHz.Select(static n => Mega(n)))}.circuit.yaml";

    /// <inheritdoc/>
    internal override Circuit? Make() =>
        UsualFilters.Trap([.. NotchesHz.Select(static n => (double)n)], CentreHz) is { } made
            ? made with { Name = NotchesHz.Count == 1 ? "trap" : "double trap", LeakageDb = BoxLeakageDb }
            : null;

    /// <inheritdoc/>
    public bool Equals(UsualTrap? other) =>
        other is not null && CentreHz == other.CentreHz && NotchesHz.SequenceEqual(other.NotchesHz);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(CentreHz, NotchesHz.Count, NotchesHz[0]);
}
