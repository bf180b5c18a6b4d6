using System.Globalization;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>What one would hear of a mixture, and how likely it is harmful, in words.</summary>
internal static class HeardWords
{
    /// <summary>The modulations, joined: <c>speech of one at twice its deviation and data tones of other</c>; no full stop.</summary>
    public static string Of(ProductFinding product)
    {
        List<string> parts = [];
        foreach (HeardModulation heard in product.Heard)
        {
            string deviation = heard switch
            {
                { Times: 1 } or { Sound: Sound.Carrier or Sound.AmplitudeModulation } => "",
                { Times: 2 } => " at twice its deviation",
                { Times: 3 } => " at three times its deviation",
                _ => string.Create(CultureInfo.InvariantCulture, $" at {heard.Times} times its deviation"),
            };
            parts.Add($"{Word(heard.Sound)} of {heard.Emitter}{deviation}");
        }

        return parts.Count switch
        {
            0 => "",
            1 => parts[0],
            2 => parts[0] + " and " + parts[1],
            _ => string.Join(", ", parts.Take(parts.Count - 1)) + " and " + parts[^1],
        };
    }

    /// <summary>A chance in a word: <c>likely</c> from 80 %, <c>possible</c> from 20 %, else <c>unlikely</c>; null stays null.</summary>
    /// <param name="chance">0 to 1.</param>
    public static string? Chance(double? chance) => chance is not { } c ? null : c >= 0.8 ? "likely" : c >= 0.2 ? "possible" : "unlikely";

    private static string Word(Sound sound) => sound switch
    {
        Sound.Carrier => "a bare carrier",
        Sound.Programme => "programme (music, stereo hiss)",
        Sound.Speech => "speech",
        Sound.AmplitudeModulation => "buzz of an AM carrier",
        Sound.DataTones => "data tones",
        Sound.Keying => "keying",
        Sound.DataWarble => "data warble",
        Sound.DigitalRoar => "a digital roar",
        Sound.Picture => "picture buzz",
        Sound.DataNoise => "data noise",
        _ => "the modulation",
    };
}
