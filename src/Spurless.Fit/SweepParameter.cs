namespace Spurless.Fit;

/// <summary>One of the four S-parameters.</summary>
public enum SweepParameter
{
    /// <summary>Reflection at port 1.</summary>
    S11,

    /// <summary>Transmission from port 1 to port 2.</summary>
    S21,

    /// <summary>Transmission from port 2 to port 1.</summary>
    S12,

    /// <summary>Reflection at port 2.</summary>
    S22,
}
