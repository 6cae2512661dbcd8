using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Tests.Submitting;

/// <summary>What the entry of a record says of who sent it.</summary>
public sealed class SenderTests
{
    private const string Account = "account:0123456789abcdef";

    private static EntrySender? SenderOf(SubmissionOutcome outcome) =>
        outcome switch
        {
            SubmissionOutcome.Stored one => one.Submission.Record.Entry.Sender,
            SubmissionOutcome.Amended one => one.Submission.Record.Entry.Sender,
            SubmissionOutcome.Stood one => one.Submission.Record.Entry.Sender,
            _ => throw new ArgumentException($"{outcome}"),
        };

    [Fact]
    public async Task Submit_ByAnAccountThatStandsForSomebody_NamesThemByPseudonymAndByTheirPlace()
    {
        await using var desk = new SubmissionDesk();

        var stored = Assert.IsType<SubmissionOutcome.Stored>(
            await desk.SubmitAsync(SubmissionDesk.Job("J-1"), sender: new(Account, "tech-02"))
        );

        var entry = stored.Submission.Record.Entry;
        Assert.Equal(new EntrySender(Account, entry.By, "/people/0/id"), entry.Sender);
        Assert.Equal("tech-02", desk.Store.PersonBehind(entry.Sender!.Person!));
        Assert.Null(stored.Submission.Assessment.Entry.Sender);
        Assert.Empty(desk.Verify().Faults);
    }

    [Fact]
    public async Task Submit_BySomebodyWhoseRecordItIsNot_TellsThemApartFromWhoAnswersForIt()
    {
        await using var desk = new SubmissionDesk();

        var stored = Assert.IsType<SubmissionOutcome.Stored>(
            await desk.SubmitAsync(SubmissionDesk.Job("J-1"), sender: new(Account, "lead-01"))
        );

        var entry = stored.Submission.Record.Entry;
        Assert.Null(entry.Sender!.Place);
        Assert.NotEqual(entry.By, entry.Sender.Person);
        Assert.Equal("lead-01", desk.Store.PersonBehind(entry.Sender.Person!));
        Assert.Equal("tech-02", desk.Store.PersonBehind(entry.By!));
    }

    [Fact]
    public async Task Submit_WithAKeyOfNobody_NamesTheKeyAlone()
    {
        await using var desk = new SubmissionDesk();

        var sender = SenderOf(
            await desk.SubmitAsync(SubmissionDesk.Job("J-1"), sender: new("key:0123456789abcdef", null))
        );

        Assert.Equal(new EntrySender("key:0123456789abcdef", null, null), sender);
        Assert.True(sender!.IsKey);
    }

    [Fact]
    public async Task Submit_WithoutSignIn_NamesNoSender()
    {
        await using var desk = new SubmissionDesk();

        Assert.Null(SenderOf(await desk.SubmitAsync(SubmissionDesk.Job("J-1"))));
    }

    [Fact]
    public async Task Submit_WhatStandsAlready_KeepsWhoSentItFirst()
    {
        await using var desk = new SubmissionDesk();
        await desk.SubmitAsync(SubmissionDesk.Job("J-1"), sender: new(Account, "tech-02"));

        var again = await desk.SubmitAsync(
            SubmissionDesk.Job("J-1"),
            sender: new("key:0123456789abcdef", null)
        );

        Assert.Equal(Account, SenderOf(again)!.Name);
    }

    [Fact]
    public async Task Submit_ACorrection_NamesWhoSentTheCorrection()
    {
        await using var desk = new SubmissionDesk();
        await desk.SubmitAsync(SubmissionDesk.Job("J-1"), sender: new(Account, "tech-02"));

        var amended = await desk.SubmitAsync(
            SubmissionDesk.Job("J-1", SubmissionDesk.Mend),
            correction: new("lead-01", "read wrong"),
            sender: new("account:fedcba9876543210", "lead-01")
        );

        var sender = SenderOf(amended)!;
        Assert.Equal("account:fedcba9876543210", sender.Name);
        Assert.Equal("lead-01", desk.Store.PersonBehind(sender.Person!));
        var told = new TellSubject(desk.Store).Tell("J-1");
        Assert.Equal(["tech-02", "lead-01"], told.Select(version => version.SentFor));
    }
}
