using Spurless.Circuits.Relays;
using Spurless.Circuits.Stress;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Bypasses;

/// <summary>What a bypass relay does. Powers are those of the transmitter, times count from the start and end of its carrier.</summary>
public sealed record BypassAnswer
{
    /// <summary>What was asked.</summary>
    public required BypassQuestion Question { get; init; }

    /// <summary>Least steady power into a matched line that brings the contacts over, in watts; null where none does.</summary>
    public required double? OperatesAtW { get; init; }

    /// <summary>Power under which contacts that are over go back, in watts; null where none brings them over.</summary>
    public required double? ReleasesBelowW { get; init; }

    /// <summary>On the transmitter's steady carrier into a matched line, and its press from rest to rest.</summary>
    public required BypassPress Press { get; init; }

    /// <summary>The slower of both ends of the standing waves; null where the file states none, or one end never comes over.</summary>
    public required double? WorstAttackS { get; init; }

    /// <summary>The longer hang of both ends; null likewise.</summary>
    public required double? WorstHangS { get; init; }

    /// <summary>Supply and temperature varied, each supply at each temperature.</summary>
    public required IReadOnlyList<BypassCorner> Corners { get; init; }

    /// <summary>Speech and keying tried; empty where not asked for, or where no carrier of that power brings it over.</summary>
    public required IReadOnlyList<KeyingTrial> Trials { get; init; }

    /// <summary>Smoothing with which single sideband at full power keeps it over; null where it does anyway, or none does.</summary>
    public required SteadierSmoothing? Steadier { get; init; }

    /// <summary>The filter in the line; null where the file names none.</summary>
    public required BypassedFilterFindings? Filter { get; init; }

    /// <summary>The site's signals on the line; null where the file names no site.</summary>
    public required OffAirSum? OffAir { get; init; }

    /// <summary>The relay keyed by the transmitter's own line instead.</summary>
    public required KeyedSequence Keyed { get; init; }

    /// <summary>The relay's file.</summary>
    public BypassDocument Document => Question.Bypass.Document;

    /// <summary>Every file that was read.</summary>
    public IReadOnlyList<InputFile> Inputs => Question.Bypass.Inputs;

    /// <summary>Power that standing waves may ask for instead of <see cref="OperatesAtW"/>: where the tap stands at a minimum.</summary>
    public double? OperatesAtWorstW => OperatesAtW / Math.Pow(1 - Document.Reflection, 2);

    /// <summary>The same where it stands at a maximum.</summary>
    public double? OperatesAtBestW => OperatesAtW / Math.Pow(1 + Document.Reflection, 2);

    /// <summary>The steady level just under that which operates it, in dBm.</summary>
    public double? StrongestOffAirDbm => OperatesAtW is { } watts ? (10 * Math.Log10(watts)) + 30 : null;
}

/// <summary>One press of the key.</summary>
/// <param name="PeakV">Amplitude on the line in volts.</param>
/// <param name="SmoothingV">Smoothing voltage that stands, in volts.</param>
/// <param name="CoilA">Coil current that stands, in amperes.</param>
/// <param name="CarryA">What the last stage can carry then, in amperes.</param>
/// <param name="OnS">How long the key was pressed, in seconds.</param>
/// <param name="Run">The press, with its moments.</param>
public sealed record BypassPress(double PeakV, double SmoothingV, double CoilA, double CarryA, double OnS, RelayRun Run)
{
    /// <summary>From the start of the carrier to the contacts over, in seconds; null where they do not come.</summary>
    public double? AttackS => Run.FirstOverS;

    /// <summary>From the end of the carrier to the contacts back, in seconds; null where they were not over.</summary>
    public double? HangS => Run.Changes.FirstOrDefault(c => !c.Over && c.AtS >= OnS) is { AtS: > 0 } back ? back.AtS - OnS : null;
}

/// <summary>Supply and temperature varied.</summary>
/// <param name="SupplyV">The supply in volts.</param>
/// <param name="Celsius">The coil in degrees Celsius.</param>
/// <param name="FullCoilA">Coil current with the last stage fully on, in amperes.</param>
/// <param name="CarryA">What the last stage can carry on the transmitter's carrier, in amperes.</param>
/// <param name="NeedsA">Current that pulls it, in amperes.</param>
/// <param name="AttackS">Until the contacts are over, in seconds; null where they do not come.</param>
/// <param name="OperatesAtW">Least steady power in watts; null where none.</param>
public sealed record BypassCorner(
    double SupplyV, double Celsius, double FullCoilA, double CarryA, double NeedsA, double? AttackS, double? OperatesAtW)
{
    /// <summary>Coil current that stands, over what it needs.</summary>
    public double CoilMargin => Math.Min(FullCoilA, CarryA) / NeedsA;

    /// <summary>What the last stage can carry over what the coil takes: over 1 it is fully on.</summary>
    public double SaturationMargin => CarryA / FullCoilA;
}

/// <summary>How a transmission was keyed.</summary>
public enum KeyingKind
{
    /// <summary>Two equal tones in single sideband.</summary>
    TwoTones,

    /// <summary>A carrier keyed in Morse.</summary>
    Morse,
}

/// <summary>A transmission tried.</summary>
/// <param name="Kind">How it was keyed.</param>
/// <param name="ApartHz">Distance of the tones in hertz; 0 for Morse.</param>
/// <param name="PowerW">Peak envelope power in watts.</param>
/// <param name="CameOver">Whether the contacts came over at all.</param>
/// <param name="WentBack">How often they went back while it went on.</param>
/// <param name="LastsS">How long it lasted, in seconds.</param>
/// <param name="LeastHangS">Least hang that would have stopped it from going back, in seconds; null where none is told.</param>
/// <param name="IntoFilterS">Seconds at full power that had gone into the filter, for the same energy.</param>
public sealed record KeyingTrial(
    KeyingKind Kind, double ApartHz, double PowerW, bool CameOver, int WentBack, double LastsS, double? LeastHangS, double IntoFilterS)
{
    /// <summary>Whether it goes back and forth.</summary>
    public bool Chatters => WentBack > 0;
}

/// <summary>A greater smoothing capacitor that keeps the contacts over.</summary>
/// <param name="SmoothingF">In farads.</param>
/// <param name="AttackS">Attack with it, in seconds.</param>
/// <param name="HangS">Hang with it, in seconds.</param>
public sealed record SteadierSmoothing(double SmoothingF, double? AttackS, double? HangS);

/// <summary>The filter that is bypassed.</summary>
public sealed record BypassedFilterFindings
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What it keeps away at the least with the open contacts across it; null where it has no stop band.</summary>
    public required LeastIsolation? Isolation { get; init; }

    /// <summary>Share of the transmitter's power that heats the filter by the open contacts while the relay is over.</summary>
    public required double ShareWhileOver { get; init; }

    /// <summary>Heat in it in watts while the transmitter works into it, into a matched line; null where its sweep ends before.</summary>
    public required double? HeatW { get; init; }

    /// <summary>What its parts bear into a matched line; null for a sweep.</summary>
    public required StressResult? Stress { get; init; }

    /// <summary>The same with the standing waves at each part's worst phase; null where the file states none, or for a sweep.</summary>
    public required StressResult? WorstStress { get; init; }

    /// <summary>Power that it bears without end by its parts' ratings, in watts; null where they have none.</summary>
    public double? BearsW => (WorstStress ?? Stress)?.SafePowerW;

    /// <summary>Power in watts at which a part's peak voltage reaches its rating, however short; null where none is rated.</summary>
    public required double? VoltageBearsW { get; init; }

    /// <summary>Heat in watts at the worst phase of the standing waves, or into a matched line where none are stated.</summary>
    public double? WorstHeatW => WorstStress?.DissipatedW ?? HeatW;

    /// <summary>The part that takes most heat; null for a sweep.</summary>
    public PartStress? Hottest => (WorstStress ?? Stress)?.Parts.MaxBy(static p => p.DissipationW);
}

/// <summary>The site's signals at this connector.</summary>
/// <param name="Receiver">The receiver whose antenna it is.</param>
/// <param name="SumDbm">All of them in phase, in dBm; null where none is known.</param>
/// <param name="Counted">How many were counted.</param>
/// <param name="Unknown">Emitters whose level is not known.</param>
public sealed record OffAirSum(string Receiver, double? SumDbm, int Counted, IReadOnlyList<string> Unknown);

/// <summary>The same relay keyed by the transmitter's own line: what the sequence has to keep.</summary>
/// <param name="LeadS">
/// From the line to the contacts over at the slowest of the supplies and temperatures, in seconds; null where it does not pull.
/// </param>
/// <param name="TailS">From the line's release to the contacts back at the quickest of them, in seconds.</param>
public sealed record KeyedSequence(double? LeadS, double TailS);
