using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search.Fast;

/// <summary>A vector as far as it is chosen, strongest emitter first.</summary>
internal sealed class Prefix
{
    /// <summary>Ranks of its emitters.</summary>
    public int[] Ranks { get; } = new int[Multinomial.MaxOrder];

    /// <summary>The emitters' indices in the problem.</summary>
    public int[] Emitters { get; } = new int[Multinomial.MaxOrder];

    /// <summary>Their coefficients, with sign.</summary>
    public int[] Coefficients { get; } = new int[Multinomial.MaxOrder];

    /// <summary>Number of emitters.</summary>
    public int Depth { get; set; }

    /// <summary>Sum of the coefficients' magnitudes.</summary>
    public int Order { get; set; }

    /// <summary>Sum of coefficient times frequency, in hertz.</summary>
    public long Frequency { get; set; }

    /// <summary>Sum of magnitude times bandwidth, in hertz.</summary>
    public long Width { get; set; }

    /// <summary>Sum of the emitters' parts of the level, in micro-dB.</summary>
    public long Level { get; set; }

    /// <summary>Whether one of the emitters is wide.</summary>
    public bool Wide { get; set; }

    /// <summary>Takes all emitters off.</summary>
    public void Clear()
    {
        (Depth, Order) = (0, 0);
        (Frequency, Width, Level) = (0, 0, 0);
        Wide = false;
    }
}
