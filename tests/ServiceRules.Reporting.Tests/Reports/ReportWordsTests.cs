using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Tests.Reports;

public class ReportWordsTests
{
    private static void AssertAllTold<T>(Func<T, string> words)
        where T : struct, Enum =>
        Assert.All(Enum.GetValues<T>(), value => Assert.Matches("^[a-z][a-z' ,-]*$", words(value)));

    /// <summary>Identifiers stand as recorded, also where a sentence begins with one.</summary>
    [Theory]
    [InlineData("stop work", "Stop work")]
    [InlineData("tech-05 puts an own lock on", "tech-05 puts an own lock on")]
    [InlineData("tech-05's own lock on engine start", "tech-05's own lock on engine start")]
    [InlineData("6 readings by hand", "6 readings by hand")]
    [InlineData("cut-outs proved by tech-05", "Cut-outs proved by tech-05")]
    [InlineData("", "")]
    public void Sentence_BeginsWithACapital_UnlessAnIdentifierBeginsIt(string text, string expected) =>
        Assert.Equal(expected, ReportWords.Sentence(text));

    [Fact]
    public void Of_EveryClosedWord_HasItsWordsForPeople()
    {
        AssertAllTold<MeasuredQuantity>(ReportWords.Of);
        AssertAllTold<AdjusterKind>(ReportWords.Of);
        AssertAllTold<ServiceTask>(ReportWords.Of);
        AssertAllTold<JobRole>(ReportWords.Of);
        AssertAllTold<Attachment>(ReportWords.Of);
        AssertAllTold<WorkPlace>(ReportWords.Of);
        AssertAllTold<RecordState>(ReportWords.Of);
        AssertAllTold<AdjustDirection>(ReportWords.Of);
        AssertAllTold<Side>(ReportWords.Of);
        AssertAllTold<GrindingKind>(ReportWords.Of);
        AssertAllTold<PartKind>(ReportWords.Of);
        AssertAllTold<ContactState>(ReportWords.Of);
        AssertAllTold<PaperResult>(ReportWords.Of);
        AssertAllTold<Condition>(ReportWords.Of);
        AssertAllTold<InstrumentKind>(ReportWords.Of);
        AssertAllTold<EntryMark>(ReportWords.Of);
        AssertAllTold<BasisKind>(ReportWords.Of);
        AssertAllTold<TimelineEventKind>(ReportWords.Of);
        AssertAllTold<Verdict>(verdict => VerdictPrint.Of(verdict).Word);
        AssertAllTold<Verdict>(verdict => VerdictPrint.OfSafeWork(verdict).Word);
    }

    [Fact]
    public void Of_Verdicts_DifferInMarkAndWordAndColour()
    {
        var prints = Enum.GetValues<Verdict>().Select(VerdictPrint.Of).ToList();

        Assert.Equal(4, prints.Select(print => print.Mark).Distinct().Count());
        Assert.Equal(4, prints.Select(print => print.Word).Distinct().Count());
        Assert.Equal(4, prints.Select(print => print.Ink).Distinct().Count());
    }

    [Theory]
    [InlineData("Turn the reel; bedknife first", "Turn the cylinder; bottom blade first")]
    [InlineData("reel-125-9-510", "reel-125-9-510")]
    [InlineData("Reels and bedknives", "Cylinders and bottom blades")]
    [InlineData("reel-to-bedknife gap", "cylinder-to-bottom blade gap")]
    [InlineData("settle `worn-reel-set-up` first", "settle `worn-reel-set-up` first")]
    [InlineData("reeled, freely", "reeled, freely")]
    public void Say_InUkWords_NamesThePartsAndLeavesIdentities(string text, string expected) =>
        Assert.Equal(expected, TradeVocabulary.Say(text, TradeWords.Cylinder));
}
