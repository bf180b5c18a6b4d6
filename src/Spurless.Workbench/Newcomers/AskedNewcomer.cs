using Spurless.Files.Diagnostics;
using Spurless.Sites.Newcomers;

namespace Spurless.Workbench.Newcomers;

/// <summary>A site and a newcomer's file as they were read.</summary>
/// <param name="SiteText">The site file's text.</param>
/// <param name="NewcomerText">The newcomer's.</param>
/// <param name="Sites">Both joined; null where there is an error.</param>
/// <param name="Findings">What is wrong with either.</param>
public sealed record AskedNewcomer(
    string SiteText, string NewcomerText, NewcomerSites? Sites, IReadOnlyList<Diagnostic> Findings);
