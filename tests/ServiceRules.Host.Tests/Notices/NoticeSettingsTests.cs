using ServiceRules.Application.Filed;
using ServiceRules.Host.Notices;

namespace ServiceRules.Host.Tests.Notices;

public sealed class NoticeSettingsTests
{
    private const string Good =
        """{ "name": "workshop", "address": "https://told.example/x", "secret": "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz" }""";

    [Theory]
    [InlineData("")]
    [InlineData(
        """[{ "name": "workshop", "address": "http://told.example/x", "secret": "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz" }]"""
    )]
    [InlineData(
        """[{ "name": "workshop", "address": "https://me:pw@told.example", "secret": "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz" }]"""
    )]
    [InlineData("""[{ "name": "workshop", "address": "https://told.example/x", "secret": "whsec_MDEy" }]""")]
    [InlineData(
        """[{ "name": "work/shop", "address": "https://told.example/x", "secret": "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz" }]"""
    )]
    [InlineData("""[{ "name": "workshop", "address": "https://told.example/x" }]""")]
    [InlineData("[" + Good + ", " + Good + "]")]
    [InlineData("[]")]
    [InlineData("[null]")]
    [InlineData(
        """[{ "name": "workshop", "address": "https://told.example/x", "secret": "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz", "on": [] }]"""
    )]
    [InlineData(
        """[{ "name": "workshop", "address": "https://told.example/x", "secret": "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz", "on": [null] }]"""
    )]
    public void Settings_ThatCannotBe_AreRefusedWithoutTheSecret(string webhooks)
    {
        using var folder = new NoticeFolder(
            "{ \"format\": \"service-notices/1\", \"service\": \"https://service.example\", \"webhooks\": "
                + webhooks
                + " }",
            DurableFile.Private
        );

        var refused = Assert.Throws<StartRefusedException>(() =>
            NoticeSettings.Read(Path.GetDirectoryName(folder.Ledger)!)
        );

        Assert.DoesNotContain("whsec_MDEy", refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(":pw", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Settings_WithAMemberThatIsUnknown_AreRefusedWithWhateverElseIsWrong()
    {
        using var folder = new NoticeFolder(
            "{ \"format\": \"service-notices/2\", \"extra\": 1, \"service\": \"https://service.example\", \"webhooks\": ["
                + Good
                + "] }",
            DurableFile.Private
        );

        var refused = Assert.Throws<StartRefusedException>(() =>
            NoticeSettings.Read(Path.GetDirectoryName(folder.Ledger)!)
        );

        Assert.Contains("$.extra", refused.Message, StringComparison.Ordinal);
        Assert.Contains("service-notices/1", refused.Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Settings_ThatOthersMayRead_AreRefused()
    {
        Skip.If(OperatingSystem.IsWindows(), "no modes here");
        using var folder = new NoticeFolder(
            "{ \"format\": \"service-notices/1\", \"service\": \"https://service.example\", \"webhooks\": ["
                + Good
                + "] }",
            DurableFile.Public
        );

        _ = Assert.Throws<StartRefusedException>(() =>
            NoticeSettings.Read(Path.GetDirectoryName(folder.Ledger)!)
        );
    }

    [Fact]
    public void Settings_ThatAreSound_NameWhoIsToldOfWhat()
    {
        using var folder = new NoticeFolder("\"webhooks\": [" + Good + "]");

        var read = NoticeSettings.Read(Path.GetDirectoryName(folder.Ledger)!)!;

        Assert.Equal("workshop", Assert.Single(read.Recipients.All).Name);
    }
}
