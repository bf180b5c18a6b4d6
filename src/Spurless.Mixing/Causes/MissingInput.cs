namespace Spurless.Mixing.Causes;

/// <summary>A figure without which a level stays unknown.</summary>
/// <param name="What">What is missing, in words: 'coupling from the gauging station to the telemetry scanner at 171.55 MHz'.</param>
/// <param name="Measurement">The measurement, or the paper, that would supply it.</param>
public sealed record MissingInput(string What, string Measurement);
