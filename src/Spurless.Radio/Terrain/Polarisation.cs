namespace Spurless.Radio.Terrain;

/// <summary>Direction of the electric field.</summary>
public enum Polarisation
{
    /// <summary>Vertical, as is usual in the mobile services.</summary>
    Vertical,

    /// <summary>Horizontal.</summary>
    Horizontal,
}
