using Spurless.Numerics;
using Spurless.Radio.Paths;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Positions;

namespace Spurless.Sites.Levels;

/// <summary>What antennas do to a predicted level beyond their gains: their response over frequency, polarisation and tilt.</summary>
/// <remarks>A measured level has all of it in it already.</remarks>
internal sealed class AntennaEffects(SiteDocument site, Func<FileReference, Network?> networkOf)
{
    /// <summary>A gain counts as that of its own band within this fraction of the frequency (our choice).</summary>
    public const double BandFraction = 0.1;

    /// <summary>What an antenna out of its band adds to one sigma, in squares, in dB (our choice).</summary>
    public const double OutOfBandSigmaDb = 10;

    /// <summary>Loss between vertical and horizontal polarisation, in dB (common practice).</summary>
    public const double CrossPolarDb = 20;

    /// <summary>What crossed polarisations add to one sigma, in squares, in dB (our choice): reflections turn it.</summary>
    public const double CrossPolarSigmaDb = 6;

    /// <summary>The level with all of it counted and said.</summary>
    /// <param name="level">As the path model gives it.</param>
    /// <param name="emitter">The emitter.</param>
    /// <param name="receiver">The receiver.</param>
    public ArrivingLevel Applied(ArrivingLevel level, EmitterEntry emitter, ReceiverEntry receiver)
    {
        if (level is not { Origin: LevelOrigin.Predicted, AtAntennaDbm: { } dbm })
        {
            return level;
        }

        List<LevelNote> assumed = [.. level.Assumed];
        double? distance = EmitterPositions.FromSite(site, emitter).DistanceM;
        double ground = site.Place?.Ground is { } here && emitter.Ground is { } there ? there.Metres - here.Metres : 0;
        double? rise = emitter.Antenna?.Height is { } far && receiver.Antenna?.Height is { } own ? far.Metres - own.Metres + ground : null;
        (double db, double variance) =
            Receiving(receiver.Antenna, emitter.Frequency.Hertz, receiver.Frequency.Hertz, distance, rise, assumed);
        dbm += db;
        variance += (level.SigmaDb ?? 0) * (level.SigmaDb ?? 0);
        if (emitter.Power is not null)
        {
            dbm += Response(emitter.Antenna, PathEnd.Emitter, emitter.Frequency.Hertz, emitter.Frequency.Hertz, assumed);
        }

        if (receiver.Antenna?.Polarisation is { } one && emitter.Antenna?.Polarisation is { } other && one != other)
        {
            dbm -= CrossPolarDb;
            variance += CrossPolarSigmaDb * CrossPolarSigmaDb;
            assumed.Add(new LevelNote.CrossedPolarisations(CrossPolarDb));
        }

        dbm -= Vertical(emitter.Antenna, distance, -rise);
        return level with
        {
            AtAntennaDbm = dbm,
            SigmaDb = emitter.Uncertainty is null ? Math.Sqrt(variance) : level.SigmaDb,
            Assumed = assumed,
        };
    }

    /// <summary>What a receive antenna does to a level that was predicted with its gain: its response and its vertical pattern.</summary>
    /// <param name="antenna">The receive antenna; null for none stated.</param>
    /// <param name="emitterHz">Frequency that arrives, in hertz.</param>
    /// <param name="receiverHz">Frequency of the receiver, in whose band the gain holds, in hertz.</param>
    /// <param name="distanceM">Distance in metres, or null.</param>
    /// <param name="riseM">How much higher the far antenna stands, grounds counted, in metres, or null.</param>
    /// <param name="assumed">Takes what was assumed.</param>
    /// <returns>What it adds in dB, and what that adds to the variance in dB squared.</returns>
    public (double Db, double Variance) Receiving(
        AntennaEntry? antenna, long emitterHz, long receiverHz, double? distanceM, double? riseM, List<LevelNote> assumed)
    {
        double db = Response(antenna, PathEnd.Receiver, emitterHz, receiverHz, assumed) - Vertical(antenna, distanceM, riseM);
        if (antenna?.Response is not null || !IsOutOfBand(emitterHz, receiverHz))
        {
            return (db, 0);
        }

        assumed.Add(new LevelNote.GainOutOfBand(receiverHz, emitterHz, OutOfBandSigmaDb));
        return (db, OutOfBandSigmaDb * OutOfBandSigmaDb);
    }

    /// <summary>Whether an antenna's gain at its own frequency tells nothing of another.</summary>
    public static bool IsOutOfBand(double hertz, double ownHz) => Math.Abs(hertz - ownHz) > BandFraction * ownHz;

    /// <summary>A response stated by points, in dB at a frequency in hertz, held beyond them; 0 where there is none.</summary>
    public static double PointsDb(AntennaEntry? antenna, double frequencyHz) => antenna?.Response is { Points.Count: > 0 } response
        ? Interpolation.Held(
            [.. response.Points.Select(static p => Math.Log(p.Frequency.Hertz))],
            [.. response.Points.Select(static p => p.Value.Value)],
            Math.Log(frequencyHz))
        : 0;

    /// <summary>Gain at a frequency over that in its own band, in dB.</summary>
    private double Response(AntennaEntry? antenna, PathEnd end, long frequencyHz, long ownHz, List<LevelNote> assumed)
    {
        if (antenna?.Response is not { } response)
        {
            return 0;
        }

        if (response.TwoPort is not { } file)
        {
            long lowest = response.Points[0].Frequency.Hertz;
            long highest = response.Points[^1].Frequency.Hertz;
            if (frequencyHz < (1 - BandFraction) * lowest || frequencyHz > (1 + BandFraction) * highest)
            {
                assumed.Add(new LevelNote.ResponseHeld(end, frequencyHz));
            }

            return PointsDb(antenna, frequencyHz);
        }

        if (networkOf(file) is not { } network)
        {
            assumed.Add(new LevelNote.ResponseNotRead(end, file.Path));
            return 0;
        }

        Filter sweep = new(network.Name, network.TwoPort, IsFilter: true);
        if (!sweep.Covers(frequencyHz) || !sweep.Covers(ownHz))
        {
            assumed.Add(new LevelNote.ResponseNotMeasured(end, sweep.Covers(ownHz) ? frequencyHz : ownHz));
            return 0;
        }

        return 20 * Math.Log10(Math.Max(1e-20, sweep.At(frequencyHz).S21.Magnitude) / Math.Max(1e-20, sweep.At(ownHz).S21.Magnitude));
    }

    /// <summary>
    /// What an antenna loses above or below its main lobe, in dB; 0 where neither tilt nor vertical width is stated, or a height is not.
    /// </summary>
    private static double Vertical(AntennaEntry? antenna, double? distanceM, double? riseM)
    {
        if (antenna is null or { Tilt: null, VerticalBeamwidth: null } || riseM is not { } rise || distanceM is not { } distance
            || distance <= 0)
        {
            return 0;
        }

        double width = antenna.VerticalBeamwidth ?? VerticalPattern.BeamwidthDegrees(antenna.Gain?.Dbi ?? 0);
        return VerticalPattern.LossDb(Math.Atan2(rise, distance) * 180 / Math.PI, antenna.Tilt ?? 0, width);
    }
}
