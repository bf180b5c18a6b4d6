using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Designing;
using Spurless.Design.Optimising;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Sites.Designs;

/// <summary>A candidate with its circuit file.</summary>
/// <param name="Rank">1 for the best.</param>
/// <param name="Candidate">The candidate, its findings those of the file as read back.</param>
/// <param name="FileName">The file's name, without a folder.</param>
/// <param name="Text">The file's text.</param>
public sealed record DesignedFile(int Rank, DesignCandidate Candidate, string FileName, string Text);

/// <summary>What a design came to.</summary>
/// <param name="Brief">What was asked.</param>
/// <param name="Answer">What was found.</param>
/// <param name="Files">The candidates with their files, best first.</param>
public sealed record DesignReading(DesignBrief Brief, DesignAnswer Answer, IReadOnlyList<DesignedFile> Files);

/// <summary>Designs filters and writes them down.</summary>
public static class DesignService
{
    /// <summary>
    /// Runs a design. Every file is read back and held against the requirement anew, so that what is said of it is true of the file.
    /// </summary>
    /// <param name="brief">What is asked.</param>
    /// <param name="progress">Hears how far it has come.</param>
    /// <param name="cancellation">Ends it early with the best so far.</param>
    public static DesignReading Run(DesignBrief brief, IProgress<DesignProgress>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(brief);
        DesignAnswer answer = Designer.Run(brief.Question, progress, cancellation);
        List<DesignedFile> files = [];
        foreach (DesignCandidate candidate in answer.Candidates)
        {
            string text = DesignedCircuitFile.Text(candidate, brief);
            string name = DesignedCircuitFile.Name(files.Count + 1, candidate.Family);
            DiagnosticBag findings = new();
            Circuit? read = CircuitReader.Read(text, name, static (string _, out Refusal? refusal) =>
            {
                refusal = new Refusal("a designed circuit names no file", "take the name out");
                return null;
            }, findings)?.Circuit;
            if (read is null || DenseCheck.Run(CircuitSolver.Create(read), brief.Question) is not { } found)
            {
                throw new InvalidOperationException($"A designed circuit cannot be read back: {string.Join(" ", findings.InOrder())}");
            }

            bool met = found.All(static f => f.Met) && (candidate.Meets || candidate.Findings.Any(static f => !f.Met));
            files.Add(new(files.Count + 1, candidate with { Circuit = read, Findings = found, Meets = met }, name, text));
        }

        return new(brief, answer, files);
    }
}
