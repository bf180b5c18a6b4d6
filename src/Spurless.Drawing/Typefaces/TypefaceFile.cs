namespace Spurless.Drawing.Typefaces;

/// <summary>One face of the two typefaces that travel with the program: a WOFF2 file inside the assembly.</summary>
/// <param name="Name">The file's name, as pages ask for it.</param>
/// <param name="Family">The family's name in a style sheet.</param>
/// <param name="Weight">400 or 600.</param>
/// <param name="IsItalic">Whether it is the italic.</param>
public sealed record TypefaceFile(string Name, string Family, int Weight, bool IsItalic)
{
    /// <summary>Its bytes.</summary>
    public byte[] Bytes()
    {
        using Stream stream = typeof(TypefaceFile).Assembly.GetManifestResourceStream($"Spurless.Drawing.Typefaces.{Name}")
            ?? throw new InvalidOperationException($"The resource {Name} is missing from the assembly.");
        using MemoryStream memory = new();
        stream.CopyTo(memory);
        return memory.ToArray();
    }
}
