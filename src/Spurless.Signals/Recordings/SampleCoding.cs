namespace Spurless.Signals.Recordings;

/// <summary>How one component of a sample is written.</summary>
public enum SampleCoding
{
    /// <summary>8 bits, 128 is zero (WAV, SigMF <c>u8</c>).</summary>
    Unsigned8,

    /// <summary>8 bits, two's complement.</summary>
    Signed8,

    /// <summary>16 bits, two's complement.</summary>
    Signed16,

    /// <summary>16 bits, 32,768 is zero.</summary>
    Unsigned16,

    /// <summary>24 bits, two's complement.</summary>
    Signed24,

    /// <summary>32 bits, two's complement.</summary>
    Signed32,

    /// <summary>32 bits, 2^31 is zero.</summary>
    Unsigned32,

    /// <summary>IEEE 754, 32 bits; full scale is 1.</summary>
    Float32,

    /// <summary>IEEE 754, 64 bits; full scale is 1.</summary>
    Float64,

    /// <summary>ITU-T G.711 A-law.</summary>
    ALaw,

    /// <summary>ITU-T G.711 mu-law.</summary>
    MuLaw,
}

/// <summary>How the samples of a recording are written.</summary>
/// <param name="RateHz">Samples a second (of complex ones: pairs).</param>
/// <param name="Channels">How many values stand side by side in the file for one moment (complex: pairs).</param>
/// <param name="IsComplex">Whether a sample is a pair of in-phase and quadrature.</param>
/// <param name="Coding">How one value is written.</param>
/// <param name="BigEndian">Whether the high octet comes first.</param>
public sealed record RecordingFormat(double RateHz, int Channels, bool IsComplex, SampleCoding Coding, bool BigEndian = false)
{
    /// <summary>Octets of one value.</summary>
    public int Width => Coding switch
    {
        SampleCoding.Unsigned8 or SampleCoding.Signed8 or SampleCoding.ALaw or SampleCoding.MuLaw => 1,
        SampleCoding.Signed16 or SampleCoding.Unsigned16 => 2,
        SampleCoding.Signed24 => 3,
        SampleCoding.Float64 => 8,
        _ => 4,
    };
}

/// <summary>A stretch of a recording that was taken without a break and without retuning.</summary>
/// <param name="FirstFrame">Its first sample, counted from the first of the file.</param>
/// <param name="Frames">How many samples; the last capture of a stream whose length is not known ends with it.</param>
/// <param name="StartS">When it begins, in seconds from the recording's start; later than the samples before it where there is a
/// gap.</param>
/// <param name="CentreHz">The frequency in its middle, complex recordings only.</param>
/// <param name="Octet">Where its first sample stands in the data.</param>
public sealed record Capture(long FirstFrame, long Frames, double StartS, double? CentreHz, long Octet);
