using System.Collections.Immutable;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Json;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// A copy of a folder of rules in which something is written and tried before any of it stands in the folder itself.
/// </summary>
internal sealed class FolderDraft : IDisposable
{
    private readonly string folder;
    private readonly ImmutableArray<RuleFile> files;
    private readonly DirectoryInfo copy = Directory.CreateTempSubdirectory("servicerules-draft-");
    private readonly Dictionary<string, byte[]> before = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, byte[]> written = new(StringComparer.Ordinal);

    private FolderDraft(string folder, ImmutableArray<RuleFile> files) =>
        (this.folder, this.files) = (folder, files);

    /// <summary>A draft of a folder as it stands.</summary>
    public static FolderDraft Of(string folder)
    {
        FolderDraft draft = new(folder, FolderListing.Of(folder, new FolderRemarks()));
        foreach (var file in draft.files.Where(file => RuleFileNames.KindOf(file) is not RuleFileKind.Schema))
        {
            var content = File.ReadAllBytes(file.Path);
            draft.before[file.Name] = content;
            draft.Copy(file.Name, content);
        }

        return draft;
    }

    /// <summary>The folder of the site, relative, or null when there is none.</summary>
    public string? SiteFolder =>
        files.FirstOrDefault(file => RuleFileNames.KindOf(file) is RuleFileKind.Site)?.Folder;

    /// <summary>The files of a kind, relative.</summary>
    public IEnumerable<string> Of(RuleFileKind kind) =>
        files.Where(file => RuleFileNames.KindOf(file) == kind).Select(file => file.Name);

    public bool Has(string name) => File.Exists(Path.Combine(copy.FullName, name));

    public byte[] Read(string name) => File.ReadAllBytes(Path.Combine(copy.FullName, name));

    /// <summary>Puts a file into the draft, in place of one that may be there.</summary>
    public void Put(string name, byte[] content)
    {
        Copy(name, content);
        written[name] = content;
    }

    /// <summary>Puts a document into the draft, in its canonical form.</summary>
    public void Put<T>(string name, T value, DocumentFormat<T> format)
        where T : notnull => Put(name, format.WriteLaidOut(value, SchemaFor(name, format)));

    /// <summary>A document of the draft.</summary>
    public T Read<T>(string name, DocumentFormat<T> format)
        where T : notnull =>
        format.Read(Read(name)).TryGet(out var value, out _)
            ? value
            // Only folders that were found sound are written into.
            : throw new InvalidOperationException($"`{name}` cannot be read any more");

    public LoadedRules Load() => RuleFolder.Load(copy.FullName);

    /// <summary>Writes what was put into the draft, if the folder is sound with it and nobody changed those files meanwhile.</summary>
    /// <param name="known">What the check said of the folder as it was.</param>
    public AuthoringOutcome Keep(ImmutableArray<Diagnostic> known)
    {
        var loaded = Load();
        if (!loaded.IsSound)
        {
            return new AuthoringOutcome.Refused([
                .. loaded
                    .Diagnostics.Where(remark => remark.Level is DiagnosticLevel.Error)
                    .Select(remark => remark.ToString()),
            ]);
        }

        if (written.Keys.FirstOrDefault(IsChangedMeanwhile) is { } changed)
        {
            return new AuthoringOutcome.Refused([
                $"`{changed}` was changed meanwhile; accepted: the same once more, on what stands there now",
            ]);
        }

        Write();
        var told = known.Select(Said).ToHashSet(StringComparer.Ordinal);
        return new AuthoringOutcome.Written(
            [.. written.Keys],
            [
                .. loaded
                    .Diagnostics.Where(remark => !told.Contains(Said(remark)))
                    .Select(remark => remark.ToString()),
            ]
        );
    }

    public void Dispose() => copy.Delete(recursive: true);

    // Lines move with what is written above them.
    private static string Said(Diagnostic remark) => $"{remark.Code} {remark.File} {remark.What}";

    private void Copy(string name, byte[] content)
    {
        var path = Path.Combine(copy.FullName, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, content);
    }

    private bool IsChangedMeanwhile(string name)
    {
        var path = Path.Combine(folder, name);
        var old = before.GetValueOrDefault(name);
        return File.Exists(path) != old is not null
            || (old is not null && !File.ReadAllBytes(path).AsSpan().SequenceEqual(old));
    }

    // One after another: should one fail, those before it are put back.
    private void Write()
    {
        List<string> done = [];
        try
        {
            foreach (var (name, content) in written)
            {
                var path = Path.Combine(folder, name);
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                DurableFile.Write(path, content);
                done.Add(name);
            }
        }
        catch
        {
            foreach (var name in done)
            {
                PutBack(name);
            }

            throw;
        }
    }

    private void PutBack(string name)
    {
        var path = Path.Combine(folder, name);
        if (before.GetValueOrDefault(name) is { } old)
        {
            DurableFile.Write(path, old);
        }
        else
        {
            File.Delete(path);
        }
    }

    private string? SchemaFor<T>(string name, DocumentFormat<T> format)
        where T : notnull
    {
        if (Has(name) && format.Read(Read(name)).TryGet(out _, out var source, out _))
        {
            return DocumentFormat<T>.SchemaOf(source);
        }

        var schema = $"schema/{format.Name}.schema.json";
        return files.Any(file => file.Name == schema)
            ? string.Concat(Enumerable.Repeat("../", name.Count(letter => letter == '/'))) + schema
            : null;
    }
}
