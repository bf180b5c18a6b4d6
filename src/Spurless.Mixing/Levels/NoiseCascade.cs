namespace Spurless.Mixing.Levels;

/// <summary>Gain and noise of stages one behind the other, by Friis' law; what a source at 290 K puts in counts as 1.</summary>
/// <remarks>
/// Linear power ratios. The law is kept as the noise that the stages add at their output, <c>N -> (N + F - 1) G</c>, so that a
/// stage that lets nothing through needs no division: <c>F_total = 1 + N/G</c> is <c>F1 + sum (F_k - 1)/G_1..k-1</c>. Exact.
/// Source: H. T. Friis, Proc. IRE 1944 (from memory).
/// </remarks>
/// <param name="Gain">Available gain so far, a power ratio.</param>
/// <param name="Added">Noise that the stages so far add at their output, in units of kT0B.</param>
public readonly record struct NoiseCascade(double Gain, double Added)
{
    /// <summary>No stage yet.</summary>
    public static NoiseCascade Source => new(1, 0);

    /// <summary>Noise at the output in units of kT0B, that of the source included.</summary>
    public double Output => Gain + Added;

    /// <summary>Noise figure of all stages together in dB; infinite where they let nothing through.</summary>
    public double NoiseFigureDb => 10 * Math.Log10(Output / Gain);

    /// <summary>With a passive stage at 290 K behind it, whose noise figure is its loss.</summary>
    /// <param name="gain">Its available gain, a power ratio from 0 to 1.</param>
    public NoiseCascade Through(double gain) => new(Gain * gain, (Added * gain) + (1 - gain));

    /// <summary>With an active stage behind it.</summary>
    /// <param name="gain">Its available gain, a power ratio.</param>
    /// <param name="noiseFigureDb">Its noise figure in dB.</param>
    public NoiseCascade Amplified(double gain, double noiseFigureDb) =>
        new(Gain * gain, (Added + Math.Pow(10, noiseFigureDb / 10) - 1) * gain);
}
