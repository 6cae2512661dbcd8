using ServiceRules.Storage.Tests.Rejudging;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteRejudgingTests() : RejudgingContract(() => new Drawer());
