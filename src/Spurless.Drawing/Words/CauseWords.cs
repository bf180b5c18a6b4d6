using System.Globalization;
using Spurless.Mixing.Causes;
using Spurless.Radio.Quantities;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>What a cause other than a mixture on the channel comes to, in a sentence made of its figures.</summary>
public static class CauseWords
{
    /// <summary>The finding in one sentence or two.</summary>
    public static string Says(OtherCause cause)
    {
        CauseFinding f = cause.Finding;
        string? over = f.OverNoiseDb is { } db ? OverNoise(db) : null;
        string bound = f is { OverNoiseDb: null, AtMostOverNoiseDb: { } most } ? $"; {AtMost(most)}" : "";
        return f.Cause switch
        {
            CauseKind.Direct =>
                $"{f.Emitter} stands " + (f.OffsetHz == 0 ? "on the channel" : $"{Offset(f.OffsetHz)} beside the channel's centre")
                + (over is null ? "; its level is not known." : $", {over} in it."),
            CauseKind.TransmitterNoise => Noise(f, over) + (cause.Isolation is { } isolation ? Isolation(isolation) : ""),
            CauseKind.Blocking => (cause.Stage is { } stage ? $"In {stage}: " : "") + Blocking(f),
            CauseKind.CrossModulation =>
                $"{f.Emitter} modulates {f.Modulated} in the receiver; on the channel that is {over ?? "of unknown strength"}.",
            CauseKind.Harmonic =>
                $"Harmonic {f.Harmonic?.Times} of {f.Emitter} falls on the channel ({Megahertz(f.Harmonic?.FrequencyHz ?? 0)})"
                + (over is null ? $"; its level is not known{bound}" : $", {over}") + "; the cure is a filter at that transmitter.",
            CauseKind.ReciprocalMixing => Oscillator(f, over, bound),
            CauseKind.AdjacentChannel => $"{f.Emitter}, {Offset(f.OffsetHz)} beside the channel, comes through the receiver's own filter "
                + (over is null ? "at an unknown level." : $"like a signal {over}."),
            CauseKind.ProductOnResponse =>
                $"{(cause.Product is { } p ? StudyWords.Names(p, Typography.Plain) : "A mixture")} falls on the {OnResponse(f, over)}"
                + (cause.MoreProducts == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $" {cause.MoreProducts} more lie there.")),
            CauseKind.Outside =>
                "The same mixtures can be made in a corroded joint, "
                    + "a fence or a clamp on the structure; no filter at the receiver removes those.",
            _ => $"{f.Emitter} stands on the {OnResponse(f, over)}",
        };
    }

    private static string Blocking(CauseFinding f)
    {
        if (f.LevelDbm is not { } sum)
        {
            return "Overload: no carrier's level is known.";
        }

        return f is { OverNoiseDb: { } over, DesenseDb: { } lost }
            ? $"All carriers together bring {Dbm(sum)}, {Db(Math.Abs(over))} {(over >= 0 ? "over" : "under")} the blocking point: "
                + $"{Db(lost)} of sensitivity lost; {f.Emitter} is the strongest."
            : $"All carriers together bring {Dbm(sum)}; where the receiver blocks is not known.";
    }

    private static string Noise(CauseFinding f, string? over)
    {
        string noise = $"Sideband noise of {f.Emitter} on the channel is ";
        if (over is not null)
        {
            return $"{noise}{over}; no filter at the receiver removes it.";
        }

        string limit = f.HarmlessDbcPerHz is { } dbc
            ? $"; it is harmless below {Harmless(dbc)} dBc/Hz at {Offset(f.OffsetHz)}"
            : "";
        return noise + "not known" + f switch
        {
            { AtMostOverNoiseDb: { } most, BoundByUsual: true } => $"; if it is a usual base station, {AtMost(most)}{limit}.",
            { AtMostOverNoiseDb: { } most } => $"; {AtMost(most)}{limit}.",
            _ => limit + ".",
        };
    }

    private static string Oscillator(CauseFinding f, string? over, string bound) => f switch
    {
        { Emitter: null } => "Reciprocal mixing: no carrier's level is known.",
        _ when over is null => $"Oscillator noise of the receiver, impressed on the carriers, is not known at their offsets{bound}.",
        { AtMostOverNoiseDb: { } most } =>
            $"Oscillator noise of the receiver, impressed on the carriers, is {AtLeast(f.OverNoiseDb ?? 0)}; "
            + $"{f.Emitter} brings most of that. "
            + $"With the carriers at whose offsets it is not known it is {AtMost(most)}.",
        _ => $"Oscillator noise of the receiver, impressed on the carriers, is {over}; {f.Emitter} brings most.",
    };

    private static string Isolation(OwnIsolation own) =>
        Side(own.TransmitHz, own.Needs.NeededAtTransmitDb, own.Needs.HasAtTransmitDb, $" against its carrier (by {SetBy(own.Needs.SetBy)})")
        + Side(own.ReceiveHz, own.Needs.NeededAtReceiveDb, own.Needs.HasAtReceiveDb, " against its noise");

    private static string SetBy(OwnCarrierLimit? limit) => limit?.Kind switch
    {
        CarrierLimitKind.Blocking => "blocking",
        CarrierLimitKind.OscillatorNoise => "oscillator noise",
        _ => limit?.Product ?? "",
    };

    private static string Side(long frequencyHz, double? needed, double? has, string against) => needed is { } n
        ? $" At {Megahertz(frequencyHz)} it needs {Db(n)} of isolation{against}" + (has is { } h ? $" and has {Db(h)}." : ".")
        : "";

    private static string OnResponse(CauseFinding f, string? over) =>
        $"{Name(f.Response!)} ({Megahertz((long)Math.Round(f.Response!.FrequencyHz))})"
        + (over is null
            ? "; how strong that comes through is not known"
                + (f.AtMostOverNoiseDb is { } most ? $", like a signal {AtMost(most)}." : ".")
            : $": as much as a signal {over} on the channel.");

    private static string Name(SuperhetResponse response)
    {
        string number = response.Conversion == 1 ? "first" : "second";
        return response.Cause switch
        {
            CauseKind.Image => $"image of the {number} conversion",
            CauseKind.HalfIf => $"half-IF of the {number} conversion",
            _ when response.AtIntermediate => $"{number} intermediate frequency",
            _ =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"response of the {number} conversion (signal x {response.P}, oscillator x {response.Q})"),
        };
    }

    private static string Megahertz(long hertz) => MegahertzText.Of(hertz, 4, 6) + " MHz";

    /// <summary>A density under which noise is harmless, in whole dBc/Hz: never more than it may be.</summary>
    public static string Harmless(double dbcPerHz) => Math.Floor(dbcPerHz + 1e-6).ToString("0", CultureInfo.InvariantCulture);

    /// <summary>An offset without its sign: <c>1.0 MHz</c>, <c>12.5 kHz</c>.</summary>
    public static string Offset(double hertz) => Math.Abs(hertz) >= 1e6
        ? MegahertzText.InWords(Math.Abs(hertz)) + " MHz"
        : (Math.Abs(hertz) / 1e3).ToString("0.###", CultureInfo.InvariantCulture) + " kHz";

    private static string Db(double value) => Figures.Db(value, Typography.Plain) + " dB";

    private static string Dbm(double value) => Figures.Db(value, Typography.Plain) + " dBm";

    /// <summary>
    /// An upper bound of what stands so far over the noise, in words. Under it, a bound from above is a least distance: 'at most 3 dB under
    /// the noise' would say that it lies between the two.
    /// </summary>
    /// <param name="overNoiseDb">The bound over the noise, in dB; negative under it.</param>
    internal static string AtMost(double overNoiseDb) => $"at {(overNoiseDb >= 0 ? "most" : "least")} {OverNoise(overNoiseDb)}";

    /// <summary>A lower bound of what stands so far over the noise, in words: the other way round.</summary>
    private static string AtLeast(double overNoiseDb) => $"at {(overNoiseDb >= 0 ? "least" : "most")} {OverNoise(overNoiseDb)}";

    private static string OverNoise(double value) => value >= 0 ? Db(value) + " over the noise" : Db(-value) + " under the noise";
}
