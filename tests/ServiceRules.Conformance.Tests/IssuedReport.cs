using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests;

/// <summary>One report as the command line issues it, with what it was made from, shared by the tests of a class.</summary>
public sealed class IssuedReport : IDisposable
{
    public IssuedReport()
    {
        Record = ReferenceFiles.InRepository("rules", "base", "fixtures", "full-service-125.record.json");
        Pdf = Shop.At("job.pdf");
        Certificate = Shop.At("certificate.pem");
        Issued = Shop.Run("report", Record, "-o", Pdf, "--certificate-out", Certificate);
        Judged = Shop.Run("check", "--format", "json", Record);
    }

    /// <summary>The machine that signs: its home folder holds the key.</summary>
    public Product Shop { get; } = new();

    public string Record { get; }

    public string Pdf { get; }

    /// <summary>What the shop hands to whoever wants to verify.</summary>
    public string Certificate { get; }

    public ProductOutcome Issued { get; }

    public ProductOutcome Judged { get; }

    public void Dispose() => Shop.Dispose();
}
