namespace Spurless.Design.Tuning;

/// <summary>What is read from the sweep in a step.</summary>
public enum TuningReading
{
    /// <summary>Group delay of the reflection at port 1: its top stands in the middle of the band.</summary>
    ReflectionDelay,

    /// <summary>Loss from port to port: its notch stands at what is to be kept out.</summary>
    Notch,

    /// <summary>Return loss at port 1 in the pass-band.</summary>
    ReturnLoss,
}

/// <summary>One step of aligning a filter.</summary>
/// <param name="Number">1 for the first.</param>
/// <param name="Reading">What is read.</param>
/// <param name="Adjust">Names of the parts that are turned, the first before the others.</param>
/// <param name="ShortNode">Node that is shorted to ground meanwhile; null for none.</param>
/// <param name="OpenPart">Part that is opened meanwhile; null for none.</param>
/// <param name="AtHz">Where the reading must stand, in hertz.</param>
/// <param name="Expected">What it reads then: seconds of delay, or dB of loss.</param>
/// <param name="Curve">The course about it that the sweep then shows: hertz, and seconds or dB.</param>
public sealed record TuningStep(
    int Number, TuningReading Reading, IReadOnlyList<string> Adjust, string? ShortNode, string? OpenPart, double AtHz, double Expected,
        IReadOnlyList<(double Hz, double Value)> Curve);
