# What copies take up: pieces, and what to say about them.
disc-of = { $disc } disc: { $files }
dvd-video = DVD-R disc: DVD-Video
bluray-video = BD-R disc: video
file-is-cut = one file may be { $size } GB and a { $disc } holds { $holds } GB, so it is split into up to { $parts } parts
quality-good = good
quality-fair = fair
quality-marginal = marginal
quality-poor = poor
several-dvds = a tape of up to { $minutes } minutes needs { $parts } DVDs at { $rate } Mb/s, a { $quality } picture; on one disc it would be { $one_rate } Mb/s, a { $one_quality } one
one-dvd = a tape of up to { $minutes } minutes gets { $rate } Mb/s on its DVD: a { $quality } picture
stick = USB stick, { $gb } GB
disk = hard disk, { $tb } TB
stick-of = { $stick }: { $files }
own-drive = customer's own drive: { $files }
pieces = { $n ->
        [0] { $words }
        [one] { $words }
       *[other] { $n } × { $words }
    }
download-of = download: { $files }
own-drive-needs = the customer's drive needs { $gb } GB free
download = up to { $gb } GB to download; nothing to hand over but the tapes
nearly-full = the { $stick } may be nearly full: it holds { $holds } GiB, and { $needs } GiB may be needed
fat32 = one file may be { $size } GB, and many drives take no file that large, only { $minutes } minutes of it: the drive has to be emptied and formatted anew, or the file split into { $parts } parts

# --- kinds of files ---
codec-h264 = H.264 files
codec-h264-8 = H.264 files, 8 Mb/s
codec-dv = DV files
codec-hdv = HDV files
codec-mpeg2 = MPEG-2 files, 50 Mb/s
codec-ffv1 = FFV1 files
codec-v210 = uncompressed 10-bit files

# --- figures that carry no source of their own, as the chapter on sources names them ---
figure-disc_file_system-bytes = set aside for the file system of a disc, in bytes
figure-dvd_video-dvd_5_gbit = DVD of one layer, in gigabits
figure-dvd_video-dvd_9_gbit = DVD of two layers, in gigabits
figure-dvd_video-most_mb_s = most that a DVD may carry, in Mb/s
figure-dvd_video-least_mb_s = below it a DVD's picture is marginal, in Mb/s
figure-dvd_video-fair_mb_s = from it on a DVD's picture is good, in Mb/s
figure-dvd_video-poor_mb_s = below it a DVD's picture is poor, in Mb/s
figure-dvd_video-usual_mb_s = most that an encoder uses in practice, in Mb/s
figure-bluray-mb_s = H.264 on a Blu-ray disc, in Mb/s
figure-sticks-gigabytes = sticks as they are sold, in GB
figure-disks-gigabytes = disks as they are sold, in GB
figure-filling-usable = share of a stick left after formatting
figure-filling-near_full = share from which a stick counts as nearly full
figure-filling-fat32_bytes = longest file of FAT32, in bytes
