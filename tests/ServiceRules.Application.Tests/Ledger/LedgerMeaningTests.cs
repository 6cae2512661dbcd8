using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>What verifying and telling make of contents: other semantics, shared identities, versions that go back.</summary>
public sealed class LedgerMeaningTests : IDisposable
{
    private readonly Desk _desk = new();

    public void Dispose() => _desk.Dispose();

    private static byte[] Order(string id, string target) =>
        Encoding.UTF8.GetBytes(
            $$"""
            { "format": "setting-order/1", "id": "{{id}}", "by": "lead-01", "from": "2026-04-01",
              "targets": [{ "area": "golf-greens", "quantity": "height-of-cut", "target": "{{target}}" }], "schools": [] }
            """
        );

    private FilingOutcome.Filed FileOrder(string id, string target, Correction? correction = null) =>
        Assert.IsType<FilingOutcome.Filed>(
            new FileSiteDocument(_desk.Open()).SettingOrder(Order(id, target), correction)
        );

    /// <summary>As an earlier version of the product would have judged it.</summary>
    private static Assessed JudgedByOtherSemantics(Action<JsonObject>? change = null)
    {
        var assessed = Desk.Judged();
        var assessment = JsonNode.Parse(assessed.Evidence.Assessment.Bytes.Span)!.AsObject();
        assessment["semantics"] = "0";
        assessment["aWordOfThatVersion"] = true;
        change?.Invoke(assessment);
        Assert.True(
            CanonicalJson
                .Canonicalise(Encoding.UTF8.GetBytes(assessment.ToJsonString()))
                .TryGet(out var document, out _)
        );
        return assessed with { Evidence = assessed.Evidence with { Assessment = document } };
    }

    [Fact]
    public void Verify_AssessmentByOtherSemantics_IsARemarkAndNoFault()
    {
        _desk.File(JudgedByOtherSemantics());

        var verified = _desk.Verify();

        Assert.Empty(verified.Faults);
        Assert.Contains(
            verified.Remarks,
            remark => remark.StartsWith("1 assessments are by version `0`", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Verify_AssessmentByOtherSemanticsWhoseContextIsGone_IsAFault()
    {
        var assessed = JudgedByOtherSemantics();
        _desk.File(assessed);
        _desk.Store.Remove(assessed.Evidence.Context.Hash);

        Assert.Equal(LedgerFaultCode.ContentMissing, Assert.Single(_desk.Verify().Faults).Code);
    }

    [Fact]
    public void Verify_AssessmentByOtherSemanticsOfAnotherRecord_IsAFault()
    {
        _desk.File(
            JudgedByOtherSemantics(assessment =>
                assessment["digests"]!["record"] = ContentHash.Of("another"u8).ToString()
            )
        );

        Assert.Equal(LedgerFaultCode.Content, Assert.Single(_desk.Verify().Faults).Code);
    }

    [Fact]
    public void Tell_AssessmentByOtherSemantics_IsToldApartFromAMissingOne()
    {
        var assessed = JudgedByOtherSemantics();
        _desk.File(assessed);

        Assert.Contains("version `0`", WhyNone(), StringComparison.Ordinal);

        _desk.Store.Kept[assessed.Evidence.Assessment.Hash.ToString()][5] ^= 1;
        Assert.Contains("other bytes", WhyNone(), StringComparison.Ordinal);

        _desk.Store.Remove(assessed.Evidence.Assessment.Hash);
        Assert.Equal("missing, and no erasure removed it", WhyNone());

        string? WhyNone() =>
            new TellSubject(_desk.Store).Tell(Desk.Job).Single().Assessments.Single().WhyNone;
    }

    [Fact]
    public void Verify_RecordUnderTheIdentityOfASettingOrder_IsSound()
    {
        FileOrder("X-1", "3.8 mm");
        _desk.File(Desk.Judged(id: "X-1"));
        FileOrder("X-1", "3.9 mm", new Correction("lead-01", "later in the season"));
        _desk.Amend(
            Desk.Judged(job => job["units"]![0]!["entries"]![0]!["value"] = "3.81 mm", "X-1"),
            "lead-01",
            "misread"
        );

        Assert.Empty(_desk.Verify().Faults);
    }

    [Fact]
    public void Tell_RecordUnderTheIdentityOfASettingOrder_ComparesItWithNoOrder()
    {
        FileOrder("X-1", "3.8 mm");
        _desk.File(Desk.Judged(id: "X-1"));

        Assert.All(new TellSubject(_desk.Store).Tell("X-1"), version => Assert.Null(version.Changes));
    }

    [Fact]
    public void SettingOrder_AmendedBackToItsFirstContent_IsANewEntry()
    {
        FileOrder("X-1", "3.8 mm");
        FileOrder("X-1", "3.9 mm", new Correction("lead-01", "try it lower"));

        var back = FileOrder("X-1", "3.8 mm", new Correction("lead-01", "it was right after all"));

        Assert.True(back.IsNew);
        Assert.Equal(1, back.Entries.Single().Entry.Entry.Corrects!.Index);
        Assert.Empty(_desk.Verify().Faults);
    }

    [Fact]
    public void SettingOrder_AmendedToWhatStands_AddsNothingAndIsRefusedForAnotherReason()
    {
        FileOrder("X-1", "3.8 mm");
        FileOrder("X-1", "3.9 mm", new Correction("lead-01", "try it lower"));

        Assert.False(FileOrder("X-1", "3.9 mm", new Correction("lead-01", "try it lower")).IsNew);
        Assert.IsType<FilingOutcome.Refused>(
            new FileSiteDocument(_desk.Open()).SettingOrder(
                Order("X-1", "3.9 mm"),
                new Correction("lead-01", "wet ground")
            )
        );
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Verify_WithAKey_SaysWhetherTheKeyWasGiven(bool isGiven)
    {
        _desk.File(Desk.Judged());

        var verified = new VerifyLedger(_desk.Store, _desk.Signer.Key) { IsKeyGiven = isGiven }.Verify(
            [],
            []
        );

        Assert.Equal(
            !isGiven,
            verified.Remarks.Any(remark =>
                remark.Contains("was found with the log", StringComparison.Ordinal)
            )
        );
    }
}
