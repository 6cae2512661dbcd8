using ServiceRules.TestKit;

namespace ServiceRules.Architecture.Tests.TestKit;

public sealed class ApprovedFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("approved-").FullName;

    private string Approved => Path.Combine(_folder, "page.txt");

    private string Received => Path.Combine(_folder, "page.received.txt");

    [Fact]
    public void Matches_FileBesideThisTest_IsFound() =>
        ApprovedFile.Matches("approved by a person\n", "example.txt");

    [Fact]
    public void Compare_NothingApproved_FailsAndKeepsWhatWasReceived()
    {
        _ = Assert.Throws<InvalidOperationException>(() =>
            ApprovedFile.Compare("new", Approved, accept: false)
        );

        Assert.Equal("new", File.ReadAllText(Received));
        Assert.False(File.Exists(Approved));
    }

    [Fact]
    public void Compare_OneLineDiffers_NamesTheLineAndBothTexts()
    {
        File.WriteAllText(Approved, "one\ntwo\n");

        var fault = Assert.Throws<InvalidOperationException>(() =>
            ApprovedFile.Compare("one\n2\n", Approved, accept: false)
        );

        Assert.StartsWith("line 2 is `2`, approved is `two`", fault.Message, StringComparison.Ordinal);
        Assert.Equal("one\ntwo\n", File.ReadAllText(Approved));
    }

    [Fact]
    public void Compare_Accepting_ReplacesTheApprovedAndClearsTheReceived()
    {
        File.WriteAllText(Approved, "old");
        File.WriteAllText(Received, "stale");

        ApprovedFile.Compare("new", Approved, accept: true);

        Assert.Equal("new", File.ReadAllText(Approved));
        Assert.False(File.Exists(Received));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
