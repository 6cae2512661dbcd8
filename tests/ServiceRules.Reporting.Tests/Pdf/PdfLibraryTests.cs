using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Pdf;

public class PdfLibraryTests
{
    [Fact]
    public void PdfSharp_IsNamedOnlyInTheFolderThatPaints()
    {
        var project = ReferenceFiles.InRepository("src", "ServiceRules.Reporting");
        var outside = Directory
            .EnumerateFiles(project, "*.cs", SearchOption.AllDirectories)
            .Where(path =>
                !path.Contains(
                    $"{Path.DirectorySeparatorChar}Pdf{Path.DirectorySeparatorChar}",
                    StringComparison.Ordinal
                )
            )
            .Where(path => File.ReadAllText(path).Contains("PdfSharp", StringComparison.Ordinal));

        Assert.Empty(outside);
    }
}
