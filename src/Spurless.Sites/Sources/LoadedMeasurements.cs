using Spurless.Circuits.Measured;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Receivers;

namespace Spurless.Sites.Sources;

/// <summary>A receiver's measurements with the sweep and the sites that they name, all read and checked.</summary>
/// <param name="Document">The measurements.</param>
/// <param name="FrontEnd">What stands before the first active stage; null where it was not measured.</param>
/// <param name="Sites">Sites by the path that names them.</param>
/// <param name="Inputs">Every file that was read, the measurements first.</param>
/// <param name="Warnings">What the reading warned of.</param>
public sealed record LoadedMeasurements(
    ReceiverMeasurements Document, MeasuredTwoPort? FrontEnd, IReadOnlyDictionary<string, LoadedSite> Sites,
        IReadOnlyList<InputFile> Inputs, IReadOnlyList<Diagnostic> Warnings);
