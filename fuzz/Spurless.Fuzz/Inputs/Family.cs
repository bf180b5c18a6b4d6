namespace Spurless.Fuzz.Inputs;

/// <summary>How the inputs of a reader are built, which decides the generators that serve it.</summary>
internal enum Family
{
    /// <summary>YAML.</summary>
    Yaml,

    /// <summary>A table with a head and separators.</summary>
    Table,

    /// <summary>Lines of words and numbers.</summary>
    Lines,

    /// <summary>Bytes with a head and lengths.</summary>
    Binary,
}
