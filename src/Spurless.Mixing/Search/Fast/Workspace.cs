namespace Spurless.Mixing.Search.Fast;

/// <summary>Arrays that grow and are kept, so that a warm search allocates nothing that depends on the problem's size.</summary>
internal static class Workspace
{
    /// <summary>Makes an array at least so long; what stood in it may be lost.</summary>
    public static void Grow<T>(ref T[] array, int length)
    {
        if (array.Length < length)
        {
            array = new T[Math.Max(length, array.Length + (array.Length / 2))];
        }
    }
}
