package org.diesurvey.archive.run;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import org.diesurvey.CancelledException;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.archive.BatchListener;
import org.diesurvey.archive.BatchOutcome;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.BatchProgress;
import org.diesurvey.archive.PhotoFailure;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.archive.pages.ArchivePages;
import org.diesurvey.archive.store.ArchiveDatabase;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.archive.store.ArchivePlace;
import org.diesurvey.archive.store.ArchiveStore;
import org.diesurvey.archive.store.ArchivedPhotograph;
import org.diesurvey.archive.store.DatabaseRebuild;
import org.diesurvey.archive.store.SourceRow;
import org.diesurvey.archive.store.StoredArchive;
import org.diesurvey.archive.worker.ClusterSurveyor;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.ReadFiles;

/**
 * Surveys many photographs into an archive. A bad photograph is an outcome, never an end. May be
 * stopped at any moment, also by the loss of the process: a survey is made in a working folder,
 * renamed to its place when complete, and only then noted in the database; the next run removes
 * what is in neither state and does the rest. A photograph is left as it is if its bytes, scale,
 * node, settings, model and program version are those of a survey in the archive.
 */
@Supported
public final class BatchRun {
  /** Photographs that may be in work at a time. */
  public static final int MAX_WORKERS = 4096;

  private final Supplier<ArchivePlace> place;
  private final PhotoSurveyor surveyor;
  private final int workers;
  private final MemoryBudget memory;
  private final Instant created;
  private volatile boolean cancelled;
  private volatile boolean interrupted;

  /**
   * @param folder of the archive
   * @param surveyor does single photographs; stays open
   * @param workers photographs at a time, 1 to {@link #MAX_WORKERS}
   * @param heapBytes memory that photographs in work may count on together; Long.MAX_VALUE where
   *     they are surveyed on other computers
   * @param created moment to note in surveys
   */
  public BatchRun(
      Path folder, PhotoSurveyor surveyor, int workers, long heapBytes, Instant created) {
    this(folder, ReadFiles.NONE, surveyor, workers, heapBytes, created);
  }

  /**
   * The same for one who knows what the call reads.
   *
   * @param read files that must not be replaced
   */
  public BatchRun(
      Path folder,
      ReadFiles read,
      PhotoSurveyor surveyor,
      int workers,
      long heapBytes,
      Instant created) {
    this(
        () -> ArchiveFolder.open(folder, read, ArchivePages.ALL),
        surveyor,
        workers,
        heapBytes,
        created);
  }

  BatchRun(
      Supplier<ArchivePlace> place,
      PhotoSurveyor surveyor,
      int workers,
      long heapBytes,
      Instant created) {
    if (workers < 1 || workers > MAX_WORKERS) {
      throw new IllegalArgumentException(
          "workers must be in 1.." + MAX_WORKERS + ", was " + workers);
    }
    this.place = place;
    this.surveyor = surveyor;
    this.workers = workers;
    this.memory = new MemoryBudget(heapBytes);
    this.created = created;
  }

  /**
   * A run whose archive lies in a store. The database is written on this computer and put into the
   * store every minute and at the end; surveys go there from where they are made.
   *
   * @param store what holds the archive
   * @param staging folder of this computer for the database and the pages while they are written; a
   *     folder of the run's own is made in it, and removed at the end
   * @param takeOver whether to take the archive from a run that holds it, because that run is gone
   * @param surveyor leaves its surveys in the same store ({@link ClusterSurveyor#store})
   * @param workers photographs at a time, 1 to {@link #MAX_WORKERS}
   * @param created moment to note in surveys
   */
  public static BatchRun inStore(
      ArchiveStore store,
      Path staging,
      boolean takeOver,
      PhotoSurveyor surveyor,
      int workers,
      Instant created) {
    return new BatchRun(
        () ->
            StoredArchive.open(
                store, staging, takeOver, StoredArchive.BETWEEN_COPIES, ArchivePages.ALL),
        surveyor,
        workers,
        Long.MAX_VALUE,
        created);
  }

  /**
   * Lets photographs in work come to their end and begins no other. The interruption of the thread
   * in {@link #run} ends those in work too.
   */
  public void cancel() {
    cancelled = true;
  }

  /**
   * Surveys photographs.
   *
   * @param photos each path at most once
   * @param listener told of every photograph that is done
   * @return how far the run came; after {@link #cancel} not all photographs are done
   * @throws DieInputException OUTPUT_NOT_WRITABLE if the archive cannot be written (any more); what
   *     was done before is kept
   */
  public BatchProgress run(List<BatchPhoto> photos, BatchListener listener) {
    try (ArchivePlace archive = place.get()) {
      try {
        BatchProgress reached;
        DatabaseRebuild.Plan plan = DatabaseRebuild.plan(archive.database(), archive);
        if (plan.setsAside()) {
          archive.setAsideDatabase();
        }
        try (ArchiveDatabase database = ArchiveDatabase.open(archive.database())) {
          Map<String, ArchivePlace.Complete> unnoted =
              DatabaseRebuild.note(database, plan, archive);
          plan.sentence("was rebuilt").ifPresent(s -> listener.said(archive.shown() + ": " + s));
          reached = new Work(archive, database, unnoted, photos.size(), listener).all(photos);
        }
        // What is done is kept, so the mark of an interruption must not spoil the writing of it.
        interrupted |= Thread.interrupted();
        archive.finish(ArchivePages.ALL, created);
        return reached;
      } catch (IOException e) {
        throw ArchiveFolder.refused(archive.shown() + ": the archive cannot be written.", e);
      } finally {
        if (interrupted) {
          Thread.currentThread().interrupt();
        }
      }
    }
  }

  /** One run. */
  private final class Work {
    private final ArchivePlace archive;
    private final ArchiveDatabase database;
    private final BatchListener listener;
    private final Map<String, ArchiveDatabase.Known> before;
    private final Map<String, ArchivePlace.Complete> unnoted;
    private final Semaphore slots = new Semaphore(workers);
    private final AtomicReference<RuntimeException> end = new AtomicReference<>();
    private final int threadsEach;
    private final long start = System.nanoTime();
    private BatchProgress progress;

    Work(
        ArchivePlace archive,
        ArchiveDatabase database,
        Map<String, ArchivePlace.Complete> unnoted,
        int photos,
        BatchListener listener) {
      this.unnoted = unnoted;
      this.archive = archive;
      this.database = database;
      this.listener = listener;
      before = database.sources();
      progress = new BatchProgress(photos, 0, 0, 0, 0, 0);
      threadsEach = Math.max(1, workers / Math.max(1, photos));
    }

    /** Sorts photographs out in their order; the surveys themselves run on worker threads. */
    BatchProgress all(List<BatchPhoto> photos) {
      ExecutorService pool = Executors.newFixedThreadPool(workers);
      Set<String> begun = new HashSet<>();
      List<Task> twins = new ArrayList<>();
      try (ChecksumsAhead sums = new ChecksumsAhead(photos, surveyor, workers)) {
        for (BatchPhoto photo : photos) {
          if (cancelled || end.get() != null) {
            break;
          }
          Task task = task(photo, sums.next());
          if (!begun.add(task.key)) {
            twins.add(task);
          } else if (!known(task)) {
            begin(pool, task);
          }
        }
      } catch (InterruptedException e) {
        stop(pool);
      } finally {
        finish(pool);
      }
      for (Task twin : twins) {
        if (!cancelled && end.get() == null && !known(twin)) {
          survey(twin, 1);
        }
      }
      if (end.get() != null) {
        throw end.get();
      }
      return progress;
    }

    private void finish(ExecutorService pool) {
      pool.shutdown();
      boolean ended = false;
      while (!ended) {
        try {
          ended = pool.awaitTermination(1, TimeUnit.MINUTES);
        } catch (InterruptedException e) {
          stop(pool);
        }
      }
    }

    /** Photographs in work are given up; they end within half a second. */
    private void stop(ExecutorService pool) {
      cancelled = true;
      interrupted = true;
      pool.shutdownNow();
    }

    private void begin(ExecutorService pool, Task task) throws InterruptedException {
      int share = memory.share(task.photo);
      slots.acquire();
      memory.take(share);
      pool.execute(
          () -> {
            try {
              survey(task, memory.alone(share) ? workers : threadsEach);
            } catch (RuntimeException e) {
              end.compareAndSet(null, e);
            } finally {
              memory.give(share);
              slots.release();
            }
          });
    }

    private Task task(BatchPhoto photo, String sum) {
      String key =
          Checksums.of(
              String.join(
                  "\n",
                  sum.isEmpty() ? photo.place() : sum,
                  photo.scale().toString(),
                  photo.nodeNm() + (photo.plane().isEmpty() ? "" : " " + photo.plane()),
                  surveyor.identity().toString()));
      return new Task(photo, sum, key);
    }

    /** Whether the archive knows the answer already; notes and tells it then. */
    private boolean known(Task task) {
      if (noteUnnoted(task)) {
        return true;
      }
      Optional<String> name = database.folder(task.key);
      if (name.isPresent() && archive.holds(name.get())) {
        note(task, done(task, BatchOutcome.Kind.UNCHANGED, name.get()));
        return true;
      }
      ArchiveDatabase.Known earlier = before.get(archive.seen(task.photo));
      if (earlier != null
          && !task.sha256.isEmpty()
          && earlier.surveyKey().equals(task.key)
          && earlier.outcome().equals("rejected")) {
        note(
            task,
            new BatchOutcome(
                task.photo,
                BatchOutcome.Kind.REJECTED,
                earlier.reason(),
                earlier.sentence(),
                Optional.empty()));
        return true;
      }
      return false;
    }

    /** A complete survey without rows is as good as one with them. */
    private boolean noteUnnoted(Task task) {
      ArchivePlace.Complete found = unnoted.remove(task.name());
      if (found == null) {
        return false;
      }
      try {
        BatchOutcome outcome = done(task, BatchOutcome.Kind.UNCHANGED, task.name());
        add(task, task.name(), outcome, found.read().filed());
        tell(outcome);
        return true;
      } catch (IOException e) {
        throw full(e);
      }
    }

    private void survey(Task task, int threads) {
      String name = task.name();
      Path work = archive.work(name);
      Optional<DieInputException> taken = archive.refusal(name);
      if (taken.isPresent()) {
        // Not noted: once the file is moved away, the next run surveys it.
        tell(lost(task, BatchOutcome.Kind.FAILED, Reason.OUTPUT_NOT_WRITABLE.name(), taken.get()));
        return;
      }
      try {
        surveyor.survey(task.photo, work, created, threads);
        BatchOutcome outcome = done(task, BatchOutcome.Kind.SURVEYED, name);
        keep(task, work, name, outcome);
        tell(outcome);
      } catch (DieInputException e) {
        if (e.reason() == Reason.OUTPUT_NOT_WRITABLE) {
          throw e.getMessage().startsWith(work.toString()) ? full(e) : e;
        }
        note(task, lost(task, BatchOutcome.Kind.REJECTED, e.reason().name(), e));
      } catch (CancelledException e) {
        // Neither surveyed nor lost: the next run does it.
        cancelled = true;
      } catch (PhotoFailure e) {
        note(task, lost(task, BatchOutcome.Kind.FAILED, e.kind().name(), e));
      } catch (IOException e) {
        throw full(e);
      }
    }

    private DieInputException full(Exception e) {
      return ArchiveFolder.refused(
          archive.shown()
              + ": the archive cannot be written; is the disk full? What is done is kept: make room"
              + " and call again.",
          e);
    }

    private BatchOutcome done(Task task, BatchOutcome.Kind kind, String name) {
      return new BatchOutcome(
          task.photo, kind, Optional.empty(), Optional.empty(), Optional.of(archive.photo(name)));
    }

    private BatchOutcome lost(
        Task task, BatchOutcome.Kind kind, String reason, RuntimeException e) {
      synchronized (this) {
        listener.lost(task.photo, e);
      }
      return new BatchOutcome(
          task.photo, kind, Optional.of(reason), Optional.of(e.getMessage()), Optional.empty());
    }

    /** First the folder, then the rows: rows never speak of a folder that is not complete. */
    private void keep(Task task, Path work, String name, BatchOutcome outcome) throws IOException {
      ArchivedPhotograph note =
          new ArchivedPhotograph(
              task.key, archive.seen(task.photo), task.sha256, task.photo.labels());
      add(task, name, outcome, archive.keep(work, name, note));
    }

    private void add(Task task, String name, BatchOutcome outcome, ArchivePlace.Filed filed)
        throws IOException {
      database.add(row(task, outcome), name, filed.survey(), filed.bytes(), filed.sums());
      archive.noted(database);
    }

    private SourceRow row(Task task, BatchOutcome outcome) {
      return new SourceRow(archive.seen(task.photo), task.key, task.sha256, outcome);
    }

    private void note(Task task, BatchOutcome outcome) {
      database.note(row(task, outcome));
      try {
        archive.noted(database);
      } catch (IOException e) {
        throw full(e);
      }
      tell(outcome);
    }

    private synchronized void tell(BatchOutcome outcome) {
      progress = progress.plus(outcome.kind(), (System.nanoTime() - start) / 1e9);
      listener.done(outcome, progress);
    }
  }

  /** A photograph with its bytes' checksum (empty if they cannot be read) and its key. */
  private record Task(BatchPhoto photo, String sha256, String key) {
    /** Of the survey's folder. */
    String name() {
      return photo.stem() + "-" + key.substring(0, BatchPhoto.KEY_DIGITS);
    }
  }
}
