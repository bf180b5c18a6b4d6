using System.Globalization;

namespace Spurless.Sites.Studies;

/// <summary>What one would hear of a mixture: which modulations arrive, and how many times their deviation is multiplied.</summary>
internal static class Hearing
{
    /// <summary>A sentence on the sound of a product in an FM receiver.</summary>
    /// <param name="terms">The emitters and their coefficients, in the order of the results.</param>
    public static string Of(IReadOnlyList<(EmitterSetup Emitter, int Coefficient)> terms)
    {
        List<string> parts = [];
        foreach ((EmitterSetup emitter, int coefficient) in terms)
        {
            int times = Math.Abs(coefficient);
            string sound = Sound(emitter.EmissionClass, emitter.BandwidthHz);
            string deviation = times switch
            {
                1 => "",
                2 => " at twice its deviation",
                3 => " at three times its deviation",
                _ => string.Create(CultureInfo.InvariantCulture, $" at {times} times its deviation"),
            };
            bool deviates = sound is not ("a bare carrier" or "buzz of an AM carrier");
            parts.Add($"{sound} of {emitter.Name}{(deviates ? deviation : "")}");
        }

        return parts.Count switch
        {
            1 => parts[0],
            2 => parts[0] + " and " + parts[1],
            _ => string.Join(", ", parts.Take(parts.Count - 1)) + " and " + parts[^1],
        };
    }

    /// <summary>The sound of an emission class in an FM receiver (common practice).</summary>
    private static string Sound(string? emissionClass, long bandwidthHz)
    {
        if (bandwidthHz == 0 || emissionClass is "N0N")
        {
            return "a bare carrier";
        }

        if (emissionClass is not { Length: >= 3 })
        {
            return "the modulation";
        }

        char modulation = emissionClass[0];
        char nature = emissionClass[1];
        char information = emissionClass[2];
        return (modulation, nature, information) switch
        {
            ('F' or 'G', _, 'E') when nature == '8' || bandwidthHz > 100_000 => "programme (music, stereo hiss)",
            ('F' or 'G', _, 'E') => "speech",
            ('A' or 'H' or 'J' or 'R', _, 'E') => "buzz of an AM carrier",
            ('F' or 'G', '2', _) => "data tones",
            (_, '1' or '7', 'B') => "keying",
            ('F' or 'G', '1', 'D') => "data warble",
            (_, '7' or '9' or 'X', _) => "a digital roar",
            (_, _, 'F') => "picture buzz",
            _ => "data noise",
        };
    }
}
