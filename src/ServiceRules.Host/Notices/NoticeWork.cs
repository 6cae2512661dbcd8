using System.Globalization;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Due;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Working;

namespace ServiceRules.Host.Notices;

/// <summary>Delivers one notice to one recipient, or has it tried again later.</summary>
internal sealed partial class NoticeWork(
    NoticeSettings notices,
    ServiceSettings settings,
    INoticeStore store,
    OpenLedger ledger,
    IDueStore due,
    WebhookDelivery webhooks,
    NoticeMeter meter,
    IHostApplicationLifetime life,
    ILogger<NoticeWork> log
) : IWork
{
    public const string Name = "notice";

    public string Kind => Name;

    public static string WhatOf(Notice notice) =>
        string.Create(CultureInfo.InvariantCulture, $"{notice.Entry}/{notice.Recipient}");

    /// <summary>A recipient that does not answer keeps nobody else waiting.</summary>
    public string SharesWith(string what) => what.Split('/')[1];

    public async Task<TimeSpan?> DoAsync(string what, CancellationToken stop)
    {
        var parts = what.Split('/');
        if (
            store.Find(long.Parse(parts[0], CultureInfo.InvariantCulture), parts[1])
            is not { State: NoticeState.Waiting } notice
        )
        {
            return null;
        }

        if (Written(notice) is not { } written)
        {
            store.Tried(notice with { State = NoticeState.NothingLeft });
            return null;
        }

        using var ending = CancellationTokenSource.CreateLinkedTokenSource(stop, life.ApplicationStopping);
        var failure = await SendAsync(notice.Recipient, written, ending.Token);
        return Kept(
            notice with
            {
                Attempts = notice.Attempts + 1,
                Failure = failure ?? notice.Failure,
            },
            failure
        );
    }

    private WrittenNotice? Written(Notice notice) =>
        notice.Due is { } number
            ? due.Told(number) is { } thing
                ? WrittenDueNotice.Of(
                    thing,
                    NoticeId.Of(ledger.Key.Name, notice.Entry, notice.Recipient),
                    notices.Service
                )
                : null
            : ToldNotice.Of(ledger.Log, notice.Entry) is { } told
                ? WrittenRecordNotice.Of(told, ledger.Key.Name, notice.Recipient, notices.Service)
                : null;

    private async Task<string?> SendAsync(string recipient, WrittenNotice notice, CancellationToken stop) =>
        notices.Webhooks.FirstOrDefault(one => one.Name == recipient) is { } webhook
            ? await webhooks.SendAsync(webhook, notice, stop)
        : notices.Mail?.To.FirstOrDefault(one => one.Name == recipient) is { } reader
            ? await MailDelivery.SendAsync(notices.Mail, reader, notice, stop)
        : "not named in the settings any more";

    private TimeSpan? Kept(Notice tried, string? failure)
    {
        if (failure is null)
        {
            store.Tried(tried with { State = NoticeState.Delivered });
            meter.Came("delivered");
            return null;
        }

        Failed(log, tried.Entry, tried.Recipient, tried.Attempts, failure);
        if (tried.Attempts <= settings.NoticePauses.Length)
        {
            store.Tried(tried);
            meter.Came("failed");
            return settings.NoticePauses[tried.Attempts - 1];
        }

        store.Tried(
            tried with
            {
                State = NoticeState.GivenUp,
            },
            new AccountAct(
                settings.Clock.GetUtcNow(),
                AccountAct.NoticeGivenUp,
                AccountAct.Service,
                AccountAct.OfNotice(WhatOf(tried))
            )
            {
                Detail = failure,
            }
        );
        meter.Came("given-up");
        GivenUp(log, tried.Entry, tried.Recipient);
        return null;
    }

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "the notice of entry {Entry} did not reach {Recipient}, attempt {Attempt}: {Why}"
    )]
    private static partial void Failed(ILogger logger, long entry, string recipient, int attempt, string why);

    [LoggerMessage(
        Level = LogLevel.Error,
        Message = "the notice of entry {Entry} to {Recipient} was given up"
    )]
    private static partial void GivenUp(ILogger logger, long entry, string recipient);
}
