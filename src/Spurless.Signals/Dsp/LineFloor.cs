namespace Spurless.Signals.Dsp;

/// <summary>
/// The smooth part of a spectrum under its lines: medians of blocks of bins, of three neighbours the largest, corrected to the mean of an
/// exponential law. The largest, since at the edge of a filter one side is no measure of the noise.
/// </summary>
internal sealed class LineFloor(int bins, int block)
{
    private const float MedianToMean = 1 / 0.693f;

    private readonly float[] _medians = new float[bins / block + 1];
    private readonly float[] _floor = new float[bins];
    private readonly float[] _sorted = new float[block];

    /// <summary>Measures a spectrum between two bins.</summary>
    public void Measure(ReadOnlySpan<float> power, int lowest, int highest)
    {
        Array.Clear(_medians);
        for (int b = lowest / block; b < _medians.Length && b * block < highest; b++)
        {
            int from = Math.Max(lowest, b * block);
            int to = Math.Min(Math.Min(power.Length, highest), (b + 1) * block);
            if (to - from < block / 2)
            {
                continue;
            }

            Span<float> part = _sorted.AsSpan(0, to - from);
            power[from..to].CopyTo(part);
            _medians[b] = Kernels.Nth(part, part.Length / 2) * MedianToMean;
        }

        for (int b = 0; b * block < bins; b++)
        {
            float floor = _medians[b];
            floor = b > 0 ? Math.Max(floor, _medians[b - 1]) : floor;
            floor = b + 1 < _medians.Length ? Math.Max(floor, _medians[b + 1]) : floor;
            _floor.AsSpan(b * block, Math.Min(block, bins - b * block)).Fill(floor);
        }
    }

    /// <summary>The floor at a bin.</summary>
    public float At(int bin) => _floor[Math.Min(bin, bins - 1)];
}
