using Spurless.Radio.Paths;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Levels;

/// <summary>Gain of an antenna of the site file towards a bearing.</summary>
internal static class Gains
{
    /// <summary>Gain towards a bearing in dBi; one that was not given counts as 0 dBi, which is said.</summary>
    /// <param name="antenna">The antenna, or null where none was written.</param>
    /// <param name="towards">Bearing in degrees; null where not known: the main direction counts.</param>
    /// <param name="whose">What is noted where no gain was given.</param>
    /// <param name="assumed">Takes what was assumed.</param>
    public static double Towards(AntennaEntry? antenna, double? towards, LevelNote.GainNotGiven whose, List<LevelNote> assumed)
    {
        if (antenna?.Gain is not { } gain)
        {
            assumed.Add(whose);
            return -OffAxisDb(antenna, towards);
        }

        return gain.Dbi - OffAxisDb(antenna, towards);
    }

    /// <summary>What the antenna loses beside its main direction in dB; 0 where bearing or beamwidth is not known.</summary>
    public static double OffAxisDb(AntennaEntry? antenna, double? towards) =>
        antenna is { Bearing: { } main, Beamwidth: { } width } && towards is { } bearing
            ? OffAxis.LossDb(OffAxis.Difference(bearing, main), width)
            : 0;
}
