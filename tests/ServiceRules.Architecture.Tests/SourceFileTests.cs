namespace ServiceRules.Architecture.Tests;

public sealed class SourceFileTests
{
    private const int MostLines = 500;

    [Theory]
    [InlineData("src")]
    [InlineData("tests")]
    public void SourceFile_Length_FitsOneSitting(string side)
    {
        var files = SourceTree.Files(side).ToList();
        var tooLong = files
            // Nobody reads what a generator wrote.
            .Where(file => !file.Path.EndsWith(".g.cs", StringComparison.Ordinal))
            .Select(file => (file.Path, Lines: file.Text.Count(character => character == '\n')))
            .Where(file => file.Lines > MostLines)
            .Select(file => $"{file.Path}: {file.Lines} lines");

        Assert.NotEmpty(files);
        Shortfalls.None(tooLong, $"files over {MostLines} lines");
    }

    [Fact]
    public void SourceFile_Name_SaysWhatItHolds()
    {
        string[] empty =
        [
            "Manager",
            "Helper",
            "Helpers",
            "Util",
            "Utils",
            "Processor",
            "Data",
            "Info",
            "Base",
            "Impl",
        ];
        var vague = SourceTree
            .Files("src")
            .Where(file =>
                empty.Any(word =>
                    Path.GetFileNameWithoutExtension(file.Path).EndsWith(word, StringComparison.Ordinal)
                )
            )
            .Select(file => file.Path);

        Shortfalls.None(vague, "names that say nothing");
    }
}
