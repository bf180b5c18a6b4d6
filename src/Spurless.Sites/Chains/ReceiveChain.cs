namespace Spurless.Sites.Chains;

/// <summary>The way from the antenna connector to the receiver's first active stage, as computed.</summary>
public sealed class ReceiveChain
{
    /// <summary>Gain from the antenna connector to the receiver's first active stage, selectivity included, in dB.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    public double GainDb(double frequencyHz) => throw new NotSupportedException(frequencyHz.ToString(System.Globalization.CultureInfo.InvariantCulture));
}
