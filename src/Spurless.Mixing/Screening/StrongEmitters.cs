namespace Spurless.Mixing.Screening;

/// <summary>The strong emitters of one receiver in columns, strongest at one stage first: what pairs of them are made of.</summary>
internal sealed class StrongEmitters
{
    private double[] _weakness = [];

    /// <summary>Their number.</summary>
    public int Count { get; private set; }

    /// <summary>As indices of the field.</summary>
    public int[] Emitter { get; private set; } = [];

    /// <summary>Level at the stage in dBm, falling.</summary>
    public double[] Level { get; private set; } = [];

    /// <summary>Level at the antenna connector in dBm.</summary>
    public double[] Antenna { get; private set; } = [];

    /// <summary>Carrier in hertz.</summary>
    public long[] Frequency { get; private set; } = [];

    /// <summary>Width in hertz.</summary>
    public long[] Width { get; private set; } = [];

    /// <summary>Variance of the momentary frequency in hertz squared.</summary>
    public double[] Variance { get; private set; } = [];

    /// <summary>Its shift in hertz, without a sign.</summary>
    public double[] Shift { get; private set; } = [];

    /// <summary>Lays them out.</summary>
    /// <param name="field">The field.</param>
    /// <param name="gains">The receiver's gains.</param>
    /// <param name="stage">The stage that they are ordered by.</param>
    /// <param name="emitters">The emitters as indices of the field.</param>
    /// <param name="antenna">Their levels at the antenna connector.</param>
    public void LayOut(ScreenField field, ProfileGains gains, int stage, int[] emitters, double[] antenna)
    {
        Count = emitters.Length;
        if (_weakness.Length < Count)
        {
            int length = Math.Max(Count, 2 * _weakness.Length);
            (_weakness, Emitter, Level, Antenna) = (new double[length], new int[length], new double[length], new double[length]);
            (Frequency, Width, Variance, Shift) = (new long[length], new long[length], new double[length], new double[length]);
        }

        for (int k = 0; k < Count; k++)
        {
            (_weakness[k], Emitter[k]) = (-antenna[k] - gains.At(stage, field.FrequencyIndex[emitters[k]]), k);
        }

        Array.Sort(_weakness, Emitter, 0, Count);
        for (int k = 0; k < Count; k++)
        {
            int e = emitters[Emitter[k]];
            (Level[k], Antenna[k], Emitter[k]) = (-_weakness[k], antenna[Emitter[k]], e);
            (Frequency[k], Width[k]) = (field.FrequencyHz[e], field.BandwidthHz[e]);
            (Variance[k], Shift[k]) = (field.Spread[e].SigmaHz * field.Spread[e].SigmaHz, Math.Abs(field.Spread[e].ShiftHz));
        }
    }
}
