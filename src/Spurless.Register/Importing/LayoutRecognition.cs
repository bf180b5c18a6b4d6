using Spurless.Register.Layouts;
using Spurless.Register.Layouts.AcmaRrl;
using Spurless.Register.Layouts.FccUls;
using Spurless.Register.Layouts.IsedTafl;
using Spurless.Register.Layouts.Mapped;
using Spurless.Register.Layouts.OfcomWtr;
using Spurless.Register.Reading;

namespace Spurless.Register.Importing;

/// <summary>
/// Tells which register each file is of: by what stands in it, and where that says nothing by its name. A file that looks like another
/// register's than was asked for, or than its name says, is no guess but a finding.
/// </summary>
internal static class LayoutRecognition
{
    /// <summary>Takes the files of known layouts out of a list.</summary>
    /// <param name="files">The files; those that fit nothing stay.</param>
    /// <param name="asked">The register that was asked for; null for any.</param>
    /// <param name="watch">Takes findings.</param>
    public static List<IRegisterLayout> Recognise(List<RegisterFile> files, KnownLayout? asked, ImportWatch watch)
    {
        List<IRegisterLayout> layouts = [.. MappedLayout.Claim(files, watch)];
        Dictionary<KnownLayout, List<RegisterFile>> sorted =
            KnownLayouts.All.ToDictionary(static l => l, static _ => new List<RegisterFile>());
        foreach (RegisterFile file in files)
        {
            if (Of(file, asked, watch) is { } layout)
            {
                sorted[layout].Add(file);
            }
        }

        files.RemoveAll(f => sorted.Values.Any(s => s.Contains(f)));
        layouts.AddRange(new IRegisterLayout?[]
        {
            UlsLayout.Claim(sorted[KnownLayout.FccUls], watch), TaflLayout.Claim(sorted[KnownLayout.IsedTafl]),
            RrlLayout.Claim(sorted[KnownLayout.AcmaRrl], files, watch), WtrLayout.Claim(sorted[KnownLayout.OfcomWtr]),
        }.OfType<IRegisterLayout>());
        return layouts;
    }

    private static KnownLayout? Of(RegisterFile file, KnownLayout? asked, ImportWatch watch)
    {
        KnownLayout? looks = LooksLike(file, watch);
        KnownLayout? named = Named(file.Name);
        if (looks is not { } seen)
        {
            // A file with heads is what its heads say, or nothing; without heads the name must do.
            return named is KnownLayout.FccUls or KnownLayout.IsedTafl && (asked ?? named) == named ? named : null;
        }

        if (asked is { } wanted && wanted != seen)
        {
            watch.Diagnostics.Error(file.Shown, 0, 0, $"this looks like a file of {seen.Title()}, not of {wanted.Title()}",
                $"write --layout {seen.Word()}, or give {wanted.FileNames()}");
            return null;
        }

        if (asked is null && named is { } other && other != seen)
        {
            watch.Diagnostics.Error(file.Shown, 0, 0, $"the name is one of {other.Title()}, but this looks like a file of {seen.Title()}",
                $"if it is that, call it {seen.FileNames()}, or write register import --layout {seen.Word()}");
            return null;
        }

        return seen;
    }

    private static KnownLayout? LooksLike(RegisterFile file, ImportWatch watch)
    {
        byte[] head = file.Head(watch.Limits);
        return UlsLayout.LooksLike(head) ? KnownLayout.FccUls
            : TaflLayout.LooksLike(head) ? KnownLayout.IsedTafl
            : HeadedReader.ReadHeads(new MemoryStream(head)) is not { } heads ? null
            : RrlLayout.TableOf(heads) is not null ? KnownLayout.AcmaRrl
            : WtrLayout.LooksLike(heads) ? KnownLayout.OfcomWtr
            : null;
    }

    private static KnownLayout? Named(string name) =>
        UlsLayout.IsNamed(name) ? KnownLayout.FccUls
        : TaflLayout.IsNamed(name) ? KnownLayout.IsedTafl
        : RrlLayout.IsNamed(name) ? KnownLayout.AcmaRrl
        : WtrLayout.IsNamed(name) ? KnownLayout.OfcomWtr
        : null;
}
