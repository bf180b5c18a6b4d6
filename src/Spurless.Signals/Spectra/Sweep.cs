namespace Spurless.Signals.Spectra;

/// <summary>What an analyser or a receiver read: one level a frequency, once or row by row.</summary>
/// <param name="File">The file's name as the user gave it.</param>
/// <param name="FrequenciesHz">Centres of the bins in hertz, rising, evenly spaced within 1 %.</param>
/// <param name="RowsDbm">Rows of mean powers in dBm, one level a frequency, at least one row.</param>
public sealed record Sweep(string File, IReadOnlyList<double> FrequenciesHz, IReadOnlyList<double[]> RowsDbm)
{
    /// <summary>Whether the instrument read field strength: the rows are then dBm of an antenna whose factor is 0 dB per metre.</summary>
    public bool IsFieldStrength { get; init; }

    /// <summary>Spacing of the bins in hertz.</summary>
    public double SpacingHz => (FrequenciesHz[^1] - FrequenciesHz[0]) / (FrequenciesHz.Count - 1);
}
