using System.Globalization;

namespace Spurless.Mixing.Causes;

/// <summary>Figures inside sentences, always in the invariant culture.</summary>
internal static class Words
{
    public static string Megahertz(long hertz) => (hertz / 1e6).ToString("0.0000##", CultureInfo.InvariantCulture) + " MHz";

    public static string Offset(double hertz)
    {
        double magnitude = Math.Abs(hertz);
        return magnitude >= 1e6
            ? (magnitude / 1e6).ToString("0.0###", CultureInfo.InvariantCulture) + " MHz"
            : (magnitude / 1e3).ToString("0.###", CultureInfo.InvariantCulture) + " kHz";
    }

    public static string Db(double value) => value.ToString("0.0", CultureInfo.InvariantCulture) + " dB";

    public static string Dbm(double value) => value.ToString("0.0", CultureInfo.InvariantCulture) + " dBm";

    public static string OverNoise(double value) => value >= 0
        ? value.ToString("0.0", CultureInfo.InvariantCulture) + " dB over the noise"
        : (-value).ToString("0.0", CultureInfo.InvariantCulture) + " dB under the noise";
}
