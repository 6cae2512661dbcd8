namespace ServiceRules.Architecture.Tests.Floors;

/// <summary>Each library has one home, so that replacing it touches one folder.</summary>
public sealed class LibraryHomeTests
{
    [Theory]
    [InlineData("NRules", "src/ServiceRules.Engine/Inference/")]
    [InlineData("PdfSharp", "src/ServiceRules.Reporting/Pdf/")]
    [InlineData("Spectre.Console", "src/ServiceRules.Cli/")]
    [InlineData("System.CommandLine", "src/ServiceRules.Cli/")]
    [InlineData("MathNet.Numerics", "src/ServiceRules.Domain/Statistics/")]
    [InlineData("Org.BouncyCastle", "src/ServiceRules.Evidence/Log/")]
    [InlineData("Microsoft.Data.Sqlite", "src/ServiceRules.Storage/Sqlite/")]
    [InlineData("Microsoft.AspNetCore.Builder", "src/ServiceRules.Host/")]
    [InlineData("Microsoft.AspNetCore.OpenApi", "src/ServiceRules.Host/Description/")]
    [InlineData("OpenTelemetry", "src/ServiceRules.Host/Watching/")]
    [InlineData("CsvHelper", "src/ServiceRules.Host/")]
    [InlineData("DocumentFormat.OpenXml", "src/ServiceRules.Host/Tables/")]
    [InlineData("DbUp", "src/ServiceRules.Storage/")]
    [InlineData("Quartz", "src/ServiceRules.Storage/Working/")]
    [InlineData("MailKit", "src/ServiceRules.Host/Notices/")]
    [InlineData("Microsoft.IdentityModel", "src/ServiceRules.Host/Providers/")]
    [InlineData("Npgsql", "src/ServiceRules.Storage/Postgres/")]
    [InlineData("System.Security.Cryptography.Pkcs", "src/ServiceRules.Reporting/")]
    public void Library_WhereverItIsUsed_IsAtHome(string library, string home)
    {
        var users = SourceTree
            .Files("src")
            .Where(file => Uses(file.Text, library))
            .Select(file => file.Path)
            .ToList();

        Assert.NotEmpty(users);
        Assert.All(users, path => Assert.StartsWith(home, path, StringComparison.Ordinal));
    }

    // Also `using X.Y`, `global using`, `using static` and a name written out in full.
    private static bool Uses(string text, string library) =>
        text.Split('\n')
            .Select(line => line.Trim())
            .Where(line => !line.StartsWith("//", StringComparison.Ordinal))
            .Any(line =>
                line.Contains($" {library};", StringComparison.Ordinal)
                || line.Contains($" {library}.", StringComparison.Ordinal)
                || line.Contains($"({library}.", StringComparison.Ordinal)
            );
}
