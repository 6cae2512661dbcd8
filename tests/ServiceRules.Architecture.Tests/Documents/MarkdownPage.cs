using System.Text.RegularExpressions;
using ServiceRules.TestKit;

namespace ServiceRules.Architecture.Tests.Documents;

/// <summary>One page for contributors or users, with its links and headings.</summary>
internal sealed partial record MarkdownPage(string Path, string Text)
{
    public static IReadOnlyList<MarkdownPage> All { get; } =
    [
        .. new[] { "README.md", "DEVELOPERS.md" }
            .Select(name => ReferenceFiles.InRepository(name))
            .Concat(
                Directory.EnumerateFiles(
                    ReferenceFiles.InRepository("docs"),
                    "*.md",
                    SearchOption.AllDirectories
                )
            )
            .Select(Read),
    ];

    public static MarkdownPage Read(string path) => new(path, File.ReadAllText(path));

    public string Name => System.IO.Path.GetRelativePath(ReferenceFiles.Root, Path);

    public IEnumerable<string> Links => Link().Matches(WithoutCode).Select(match => match.Groups[1].Value);

    public IEnumerable<string> Headings =>
        Heading().Matches(FencedCode().Replace(Text, "")).Select(match => match.Groups[1].Value.Trim());

    /// <summary>Headings as a link names them: lower case, spaces as hyphens, other signs left out.</summary>
    public IEnumerable<string> Anchors =>
        Headings.Select(heading =>
            string.Concat(
                heading
                    .ToLowerInvariant()
                    .Where(character => char.IsLetterOrDigit(character) || character is ' ' or '-' or '_')
                    .Select(character => character == ' ' ? '-' : character)
            )
        );

    private string WithoutCode => InlineCode().Replace(FencedCode().Replace(Text, ""), "");

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"^#{1,6}[ \t]+(.+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();

    [GeneratedRegex(@"^```.*?^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex FencedCode();

    [GeneratedRegex(@"`[^`\n]*`")]
    private static partial Regex InlineCode();
}
