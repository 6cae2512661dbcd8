namespace ServiceRules.Application.Tests.Library.Diagnostics;

/// <summary>One thing that can be wrong in a folder of rules, shown on the shipped folder: the text that is right, and the one that is not.</summary>
/// <param name="Code">The stable code.</param>
/// <param name="Why">Why it matters, for whoever meets it.</param>
/// <param name="File">The file that is changed.</param>
/// <param name="Good">What would be right; where no shipped text is given it stands in the shipped file.</param>
/// <param name="Bad">What is wrong, in its place.</param>
internal sealed record DiagnosticExample(string Code, string Why, string File, string Good, string Bad)
{
    /// <summary>The text of the shipped file that makes room for both, where the good one is not shipped itself.</summary>
    public string? Shipped { get; init; }

    /// <summary>Whether both are whole files; nothing: the file is not there.</summary>
    public bool IsWhole { get; init; }

    /// <summary>What else is changed in both: file, text, other text.</summary>
    public (string File, string Text, string By)[] Also { get; init; } = [];

    /// <summary>Whole files that stand beside both.</summary>
    public (string File, string Text)[] Beside { get; init; } = [];

    /// <summary>The code that is told in its place where a reader sees it first.</summary>
    public string? ToldAs { get; init; }

    /// <summary>How the folder is spoilt where no text of a few lines shows it; <see cref="Bad"/> then says it in words.</summary>
    public Action<SpoiltFolder>? Spoil { get; init; }

    /// <summary>The folder that is loaded, within the copy; empty: the copy.</summary>
    public string Folder { get; init; } = "";

    /// <summary>How the texts are shown.</summary>
    public string Language => Spoil is null ? "json" : "text";

    public void Make(SpoiltFolder folder, bool bad)
    {
        foreach (var (file, text, by) in Also)
        {
            folder.Replace(file, text, by);
        }

        foreach (var (file, text) in Beside)
        {
            Whole(folder.At(file), text);
        }

        if (Spoil is not null)
        {
            if (bad)
            {
                Spoil(folder);
            }
        }
        else if (IsWhole)
        {
            Whole(folder.At(File), bad ? Bad : Good);
        }
        else if (Shipped is not null || bad)
        {
            string shipped = Placed(folder, Shipped ?? Good, Shipped ?? Good);
            folder.Replace(File, shipped, Placed(folder, Shipped ?? Good, bad ? Bad : Good));
        }
    }

    private static void Whole(string path, string text)
    {
        if (text.Length == 0)
        {
            System.IO.File.Delete(path);
            return;
        }

        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        System.IO.File.WriteAllText(path, text + "\n");
    }

    /// <summary>A text of several lines, as far in as the file has its first line.</summary>
    private string Placed(SpoiltFolder folder, string anchor, string text)
    {
        string first = anchor.Split('\n')[0];
        string line =
            System
                .IO.File.ReadLines(folder.At(File))
                .FirstOrDefault(line => line.Contains(first, StringComparison.Ordinal))
            ?? throw new InvalidOperationException($"`{first}` is not in {File}");
        return text.Replace("\n", "\n" + line[..^line.TrimStart().Length], StringComparison.Ordinal);
    }
}
