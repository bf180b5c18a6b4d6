using Spurless.Circuits.Relays;
using Spurless.Sites.Documents.Bypasses;

namespace Spurless.Sites.Bypasses;

/// <summary>Tries speech in single sideband and a keyed carrier on a relay.</summary>
internal sealed class KeyingTrials(BypassDocument document, DetectorTable table, double peakV, double? hangS)
{
    private const double SpeechS = 1;

    // Over what operates it on a carrier: closest where the envelope only just gets there.
    private static readonly double[] LevelsOver = [1.3, 1.6, 2, 3, 5, 10, 30];
    private const int SmoothingSteps = 16;
    private static readonly double SmoothingStep = Math.Pow(10, 0.25);

    /// <summary>Tries all: speech falling in power, from the transmitter's own to little over what operates it, then Morse.</summary>
    /// <param name="operatesV">Least amplitude that operates it, in volts, at most the transmitter's.</param>
    /// <param name="progress">Told what share is done, or null.</param>
    /// <param name="cancel">Stops it.</param>
    public IReadOnlyList<KeyingTrial> Run(double operatesV, IProgress<double>? progress, CancellationToken cancel)
    {
        List<KeyingTrial> all = [];
        double[] levels = [peakV, .. LevelsOver.Select(over => operatesV * Math.Sqrt(over)).Where(v => v < peakV).Reverse()];
        for (int level = 0; level < levels.Length; level++)
        {
            foreach (double apart in BypassQuestion.TonesApartHz)
            {
                all.Add(Trial(document.Circuit, KeyingKind.TwoTones, apart, levels[level], level == 0, cancel));
            }

            progress?.Report((level + 1.0) / (levels.Length + 1));
        }

        all.Add(Trial(document.Circuit, KeyingKind.Morse, 0, peakV, true, cancel));
        progress?.Report(1);
        return all;
    }

    /// <summary>The least of a row of greater smoothing capacitors, four to a decade, with which speech at full power holds it.</summary>
    /// <param name="press">A press with another circuit.</param>
    /// <param name="cancel">Stops it.</param>
    public SteadierSmoothing? Steadier(Func<RelayCircuit, BypassPress> press, CancellationToken cancel)
    {
        int low = 0, high = SmoothingSteps;
        if (!Holds(high))
        {
            return null;
        }

        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            (low, high) = Holds(middle) ? (low, middle) : (middle, high);
        }

        RelayCircuit found = With(high);
        BypassPress pressed = press(found);
        return new SteadierSmoothing(found.SmoothingF, pressed.AttackS, pressed.HangS);

        RelayCircuit With(int step) =>
            document.Circuit with { SmoothingF = document.Circuit.SmoothingF * Math.Pow(SmoothingStep, step) };

        bool Holds(int step) => BypassQuestion.TonesApartHz.All(apart =>
            Trial(With(step), KeyingKind.TwoTones, apart, peakV, true, cancel) is { CameOver: true, Chatters: false });
    }

    private KeyingTrial Trial(RelayCircuit circuit, KeyingKind kind, double apartHz, double v, bool full, CancellationToken cancel)
    {
        Keying keying = kind == KeyingKind.TwoTones
            ? Keying.TwoTones(apartHz, SpeechS)
            : Keying.Morse(BypassQuestion.MorseWordsAMinute, 2);
        RelayRun run = RelayTransient.Run(circuit, table, v, keying, cancellation: cancel);
        double held = Math.Max(0, run.LongestUnderS - circuit.Coil.ReleaseTravelS);
        double power = full ? document.PowerW : RelaySteady.Watts(v, document.ImpedanceOhm);
        return new KeyingTrial(
            kind, apartHz, power, run.FirstOverS is not null, run.WentBack, keying.BreaksS[^1], hangS is { } hang ? hang + held : null,
            run.IntoFilterS);
    }
}
