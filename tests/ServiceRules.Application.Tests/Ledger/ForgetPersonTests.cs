using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Tests.Ledger;

public sealed class ForgetPersonTests : IDisposable
{
    private readonly Desk _desk = new();

    public void Dispose() => _desk.Dispose();

    private FilingOutcome Forget(string person, bool withContents, string by = "officer-01") =>
        new ForgetPerson(_desk.Open()).Forget(person, new Correction(by, "asked for it"), withContents);

    [Fact]
    public void Forget_APerson_RemovesTheNameAndLeavesTheLogWhole()
    {
        _desk.File(Desk.Judged());
        var pseudonym = _desk.Store.Pseudonyms["tech-02"];

        var filed = Assert.IsType<FilingOutcome.Filed>(Forget("tech-02", withContents: false));

        Assert.Equal(EntryKind.Erasure, filed.Entries.Single().Entry.Entry.Kind);
        Assert.Equal(pseudonym, filed.Entries.Single().Entry.Entry.Subject);
        Assert.Null(_desk.Store.PersonBehind(pseudonym));
        Assert.Empty(_desk.Verify().Faults);
        Assert.Null(new TellSubject(_desk.Store).Tell(Desk.Job).Single().Person);
    }

    [Fact]
    public void Forget_ThenFileAgain_GivesAnotherPseudonym()
    {
        _desk.File(Desk.Judged());
        var before = _desk.Store.Pseudonyms["tech-02"];
        Forget("tech-02", withContents: false);

        _desk.File(Desk.Judged(id: "J-2"));

        Assert.NotEqual(before, _desk.Store.Pseudonyms["tech-02"]);
    }

    [Fact]
    public void Forget_WithContents_RemovesWhatNamesThePersonAndVerifiesStill()
    {
        var assessed = Desk.Judged();
        _desk.File(assessed);
        Assert.IsType<FilingOutcome.Filed>(
            new FileReport(_desk.Open()).File(assessed, "%PDF-1.7 packed"u8.ToArray(), null)
        );

        Forget("tech-02", withContents: true);

        var verified = _desk.Verify();
        Assert.Empty(verified.Faults);
        // Record, context, assessment and the report that tells them.
        Assert.Equal(4, verified.Erased);
        Assert.Null(_desk.Store.Content(assessed.Evidence.Record.Hash));
        Assert.Null(_desk.Store.Content(ContentHash.Of("%PDF-1.7 packed"u8)));
        Assert.NotNull(_desk.Store.Content(assessed.Evidence.Rules.Hash));
        Assert.Equal(0, ForgetPerson.CountNaming(_desk.Store, "tech-02"));
        var version = new TellSubject(_desk.Store).Tell(Desk.Job).Single();
        Assert.Null(version.Content);
        Assert.Equal("erased", version.WhyNone);
        Assert.False(version.IsDamaged);
    }

    [Theory]
    // Who inspected the procedure is told by the assessment, who was shown it is not.
    [InlineData("lead-01", true)]
    [InlineData("op-01", false)]
    public void Forget_SomebodyWhomOnlyTheRegistersName_RemovesThemAndWhatTellsOfThem(
        string person,
        bool isTold
    )
    {
        var assessed = Desk.Judged();
        Assert.DoesNotContain(person, Text(assessed.Evidence.Record), StringComparison.Ordinal);
        Assert.Contains($"\"{person}\"", Text(assessed.Evidence.Context), StringComparison.Ordinal);
        _desk.File(assessed);
        Assert.IsType<FilingOutcome.Filed>(
            new FileReport(_desk.Open()).File(assessed, "%PDF-1.7 packed"u8.ToArray(), null)
        );

        Assert.IsType<FilingOutcome.Filed>(Forget(person, withContents: true));

        Assert.Null(_desk.Store.Content(assessed.Evidence.Context.Hash));
        Assert.Null(_desk.Store.Content(ContentHash.Of("%PDF-1.7 packed"u8)));
        Assert.NotNull(_desk.Store.Content(assessed.Evidence.Record.Hash));
        Assert.Equal(isTold, _desk.Store.Content(assessed.Evidence.Assessment.Hash) is null);
        Assert.Equal(0, ForgetPerson.CountNaming(_desk.Store, person));
        Assert.Empty(_desk.Verify().Faults);
    }

    [Theory]
    [InlineData("tech-07", "tech-07 heard it run rough", true)]
    [InlineData("tech-07", "heard by tech-07's mate", true)]
    [InlineData("tech-07", "heard by tech-070", false)]
    [InlineData("ann", "cannot be heard", false)]
    [InlineData("will", "it will not cut", false)]
    public void CountNaming_ANameInWhatSomebodyWrote_FindsItWhereItIsNoWordOfTheLanguage(
        string person,
        string complaint,
        bool isNamed
    )
    {
        _desk.File(Desk.Judged(record => record["complaint"] = complaint));

        Assert.Equal(isNamed, ForgetPerson.CountNaming(_desk.Store, person) > 0);
    }

    private static string Text(CanonicalDocument document) =>
        System.Text.Encoding.UTF8.GetString(document.Bytes.Span);

    [Theory]
    [InlineData("tech+02")]
    [InlineData("o'hara")]
    [InlineData("jürgen-02")]
    [InlineData("a<b>&c")]
    public void CountNaming_ANameThatOtherWritersOfJsonEscape_FindsIt(string person)
    {
        var content = System.Text.Encoding.UTF8.GetBytes($$"""{"by":"{{person}}"}""");
        _desk.Store.Keep(ContentHash.Of(content), content);

        Assert.Equal(1, ForgetPerson.CountNaming(_desk.Store, person));
    }

    [Fact]
    public void Forget_WithContentsAfterTheNameAlone_RemovesThemStill()
    {
        _desk.File(Desk.Judged());
        Forget("tech-02", withContents: false);

        Assert.Contains(
            "kept contents name them",
            Assert.IsType<FilingOutcome.Refused>(Forget("tech-02", withContents: false)).Refusal.What,
            StringComparison.Ordinal
        );
        Assert.IsType<FilingOutcome.Filed>(Forget("tech-02", withContents: true));

        Assert.Equal(0, ForgetPerson.CountNaming(_desk.Store, "tech-02"));
        Assert.Empty(_desk.Verify().Faults);
        Assert.IsType<FilingOutcome.Refused>(Forget("tech-02", withContents: true));
    }

    [Theory]
    [InlineData("asked by Tech-02")]
    [InlineData("tech-02")]
    [InlineData("asked by tech-02.")]
    [InlineData("(tech-02's wish)")]
    [InlineData("tech-022 and tech-02")]
    public void Forget_ForAReasonThatNamesThePerson_IsRefused(string reason)
    {
        _desk.File(Desk.Judged());

        Assert.IsType<FilingOutcome.Refused>(Forget(reason));
        Assert.Contains("tech-02", _desk.Store.Pseudonyms.Keys);
    }

    [Theory]
    [InlineData("asked by tech-022")]
    [InlineData("left, as biotech-02 did")]
    [InlineData("register tech-02.b was merged")]
    public void Forget_ForAReasonThatNamesSomebodyElse_IsDone(string reason)
    {
        _desk.File(Desk.Judged());

        Assert.IsType<FilingOutcome.Filed>(Forget(reason));
    }

    private FilingOutcome Forget(string reason) =>
        new ForgetPerson(_desk.Open()).Forget("tech-02", new Correction("officer-01", reason), false);

    [Fact]
    public void Forget_Oneself_IsNotNamedByTheForgottenPseudonym()
    {
        _desk.File(Desk.Judged());

        var filed = Assert.IsType<FilingOutcome.Filed>(Forget("tech-02", withContents: false, by: "tech-02"));

        Assert.Null(filed.Entries.Single().Entry.Entry.By);
        Assert.Empty(_desk.Store.Pseudonyms);
    }

    [Fact]
    public void Forget_SomebodyUnknown_IsRefused()
    {
        _desk.File(Desk.Judged());

        Assert.IsType<FilingOutcome.Refused>(Forget("tech-99", withContents: false));
        Assert.Equal(3, _desk.Store.Stored.Count);
    }
}
