namespace Spurless.Signals.Recognition;

/// <summary>
/// What a finding looks like: one of the two, or neither where a spectrum says more. No order of symbols can be read from it.
/// </summary>
public sealed record Trace
{
    /// <summary>Of keyed signals: symbols laid over each other.</summary>
    public EyePicture? Eye { get; init; }

    /// <summary>Of tones: frequency and level over time; of Morse the level alone.</summary>
    public IReadOnlyList<TonePoint> Tone { get; init; } = [];
}

/// <summary>
/// Symbols of a keyed signal laid over each other: how often the demodulated signal passed through each cell. Open spaces are the levels.
/// </summary>
/// <param name="Columns">Steps of time; all of them are two symbols, with a symbol's middle at a quarter and at three quarters.</param>
/// <param name="Rows">Steps of level from the lowest up.</param>
/// <param name="Cells">Square root of the counts, the most frequent cell 255: column by column, row by row within a column.</param>
/// <param name="Laid">How many symbols lie over each other.</param>
/// <param name="SymbolS">How long a symbol lasts, in seconds.</param>
/// <param name="Openness">
/// Height of the free space round the middle level at a symbol's middle, as a share of the distance of the levels beside it: 1 without
/// noise, 0 where it is closed.
/// </param>
public sealed record EyePicture(int Columns, int Rows, byte[] Cells, int Laid, double SymbolS, double Openness);

/// <summary>A tone at a moment.</summary>
/// <param name="AtS">When, in seconds from the recording's start.</param>
/// <param name="Hz">Its frequency in hertz; null where only its level was measured.</param>
/// <param name="Db">Its level, in dB of full scale; of a keyed carrier in a band, of its strongest.</param>
public readonly record struct TonePoint(double AtS, double? Hz, double Db);
