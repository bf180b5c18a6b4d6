namespace Spurless.Sites.Studies;

/// <summary>What a modulation sounds like in an FM receiver.</summary>
public enum Sound
{
    /// <summary>Not known: no class of emission was given.</summary>
    Modulation,

    /// <summary>A carrier without modulation.</summary>
    Carrier,

    /// <summary>A broadcast programme.</summary>
    Programme,

    /// <summary>Speech.</summary>
    Speech,

    /// <summary>An amplitude-modulated carrier: a buzz.</summary>
    AmplitudeModulation,

    /// <summary>Data as tones.</summary>
    DataTones,

    /// <summary>Keying.</summary>
    Keying,

    /// <summary>Data that warbles.</summary>
    DataWarble,

    /// <summary>Many channels or scrambled data: a roar.</summary>
    DigitalRoar,

    /// <summary>Picture transmission.</summary>
    Picture,

    /// <summary>Other data: like noise.</summary>
    DataNoise,
}

/// <summary>A modulation that one would hear of a product.</summary>
/// <param name="Emitter">Whose it is.</param>
/// <param name="Sound">What it sounds like.</param>
/// <param name="Times">How many times its deviation is multiplied, 1 or more; a carrier and amplitude modulation have none.</param>
public sealed record HeardModulation(string Emitter, Sound Sound, int Times);

/// <summary>What one would hear of a mixture: which modulations arrive, and how many times their deviation is multiplied.</summary>
internal static class Hearing
{
    /// <summary>The modulations of a product in an FM receiver.</summary>
    /// <param name="terms">The emitters and their coefficients, in the order of the results.</param>
    public static IReadOnlyList<HeardModulation> Of(IReadOnlyList<(EmitterSetup Emitter, int Coefficient)> terms) =>
        [
            .. terms.Select(
                static t =>
                    new HeardModulation(t.Emitter.Name, Of(t.Emitter.EmissionClass, t.Emitter.BandwidthHz), Math.Abs(t.Coefficient))),
        ];

    /// <summary>The sound of an emission class in an FM receiver (common practice).</summary>
    private static Sound Of(string? emissionClass, long bandwidthHz)
    {
        if (bandwidthHz == 0 || emissionClass is "N0N")
        {
            return Sound.Carrier;
        }

        if (emissionClass is not { Length: >= 3 })
        {
            return Sound.Modulation;
        }

        char modulation = emissionClass[0];
        char nature = emissionClass[1];
        char information = emissionClass[2];
        return (modulation, nature, information) switch
        {
            ('F' or 'G', _, 'E') when nature == '8' || bandwidthHz > 100_000 => Sound.Programme,
            ('F' or 'G', _, 'E') => Sound.Speech,
            ('A' or 'H' or 'J' or 'R', _, 'E') => Sound.AmplitudeModulation,
            ('F' or 'G', '2', _) => Sound.DataTones,
            (_, '1' or '7', 'B') => Sound.Keying,
            ('F' or 'G', '1', 'D') => Sound.DataWarble,
            (_, '7' or '9' or 'X', _) => Sound.DigitalRoar,
            (_, _, 'F') => Sound.Picture,
            _ => Sound.DataNoise,
        };
    }
}
