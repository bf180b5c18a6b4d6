namespace Spurless.Mixing.Measurements;

/// <summary>How much one source of error moves a figure.</summary>
/// <param name="Source">Which source it is: figures that share one move together.</param>
/// <param name="SigmaDb">One sigma of the source times its weight in the figure, with sign, in dB.</param>
public readonly record struct ErrorShare(int Source, double SigmaDb);
